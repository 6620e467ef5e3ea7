// Which tunes may be one.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "collection/collection.h"
#include "tune/likeness.h"
#include "tune/record.h"

namespace answers {

struct KinQuestion {
    std::optional<std::string> of;  // a setting, as setting_named takes one; else all of the collection
    double least = tune::kPossibleKin;
    std::optional<std::size_t> limit;  // pairs told at most
};

struct ProbablePair {
    tune::TuneRecord one, other;
    double likeness = 0;  // 0 to 1
};

struct KinAnswer {
    std::optional<tune::TuneRecord> of;  // the one tune that was asked about; it is then `one` of each pair
    std::vector<ProbablePair> pairs;     // likest first
    std::int64_t matched = 0;            // also not told
    std::int64_t probable = 0;           // of these, probably one tune (tune/likeness.h)
    std::int64_t possible = 0;           // of these, perhaps; the rest is less alike and was asked for
    double least = 0;                    // from here on a pair is told
};

// Throws Refused.
KinAnswer answer(const collection::Collection& collection, const KinQuestion& question);

}  // namespace answers
