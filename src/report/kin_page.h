// Tunes that may be one: `gamut same`.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "report/document.h"
#include "tune/record.h"

namespace report {

struct ProbablePair {
    tune::TuneRecord one, other;
    double likeness = 0;  // 0 to 1
};

struct KinPage {
    std::optional<tune::TuneRecord> of;  // the one tune that was asked about; it is then `one` of each pair
    std::vector<ProbablePair> pairs;
    std::int64_t matched = 0;   // also not shown
    std::int64_t probable = 0;  // of these, probably one tune (tune/likeness.h)
    std::int64_t possible = 0;  // of these, perhaps; the rest is less alike and was asked for
    double least = 0;           // from here on a pair is listed
};

Document describe(const KinPage& page);
Document tabulate(const KinPage& page);
// The shape `same` of schema/output.md, with a line end.
std::string as_json(const KinPage& page);

// What became of two tunes of which a person has just spoken: `one` and `other` as they are now.
struct VerdictPage {
    tune::TuneRecord one, other;
    bool is_same = true;  // what was said
};

Document describe(const VerdictPage& page);
std::string as_json(const VerdictPage& page);

// `93 %`; `probably, 93 %`, `perhaps, 71 %`, and below that the number alone.
std::string likeness_in_words(double likeness);
std::string kin_in_words(double likeness);

}  // namespace report
