// Settings that are probably one tune and of which nobody has said yet.
#pragma once

#include <vector>

#include "library/library.h"

namespace cli {

struct Twin {
    tune::TuneId one;  // own ids, ascending
    tune::TuneId other;
    double likeness = 0;  // analysis::compare
};

// All of a library, likest first. Of settings that are one tune already only the likest pair with another tune is told.
std::vector<Twin> probable_twins(const library::Library& library);

// Other tunes that are probably the one a setting belongs to, likest first.
std::vector<Twin> probable_twins_of(const library::Library& library, const tune::TuneRecord& record);

}  // namespace cli
