// Tunes of a collection as they stand in a set.
#pragma once

#include <vector>

#include "collection/collection.h"
#include "repertoire/tune_shape.h"

namespace answers {

// Of these records, in their order; those without a note are left out.
std::vector<repertoire::TuneShape> shapes_of(const collection::Collection& collection,
                                             const std::vector<tune::TuneRecord>& records);

}  // namespace answers
