// Tunes of the library as they stand in a set.
#pragma once

#include <vector>

#include "library/library.h"
#include "repertoire/tune_shape.h"

namespace cli {

// Of these records, in their order; those without a note are left out.
std::vector<repertoire::TuneShape> shapes_of(const library::Library& library,
                                             const std::vector<tune::TuneRecord>& records);

}  // namespace cli
