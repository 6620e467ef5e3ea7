// Tunes that may be one: `gamut same`.
#pragma once

#include <string>

#include "answers/kin.h"
#include "report/document.h"

namespace report {

Document describe(const answers::KinAnswer& page);
Document tabulate(const answers::KinAnswer& page);
// The shape `same` of schema/output.md, with a line end.
std::string as_json(const answers::KinAnswer& page);

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
