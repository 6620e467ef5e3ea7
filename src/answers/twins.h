// Settings that are probably one tune and of which nobody has said yet.
#pragma once

#include <set>
#include <vector>

#include "analysis/kinship.h"
#include "collection/collection.h"

namespace answers {

struct Twin {
    tune::TuneId one;  // own ids, ascending
    tune::TuneId other;
    double likeness = 0;  // analysis::compare
};

// All of a collection from `least` on, likest first. Of settings that are one tune already only the likest pair with
// another tune is told.
std::vector<Twin> probable_twins(const collection::Collection& collection, double least = analysis::kProbableKin);

// Other tunes that are probably the one a setting belongs to, from `least` on, likest first.
std::vector<Twin> probable_twins_of(const collection::Collection& collection, const tune::TuneRecord& record,
                                    double least = analysis::kProbableKin);

// Of these tunes, each of which is the less welcome the later it stands: those that are probably the same as one before
// them that is none of these itself.
std::set<tune::TuneId> probable_doubles(const collection::Collection& collection,
                                        const std::vector<tune::TuneId>& tunes);

}  // namespace answers
