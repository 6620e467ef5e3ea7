// Everything about one tune: `gamut tune`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/document.h"
#include "report/handling_page.h"
#include "tune/facts.h"
#include "tune/record.h"

namespace report {

struct ProbableKin {
    tune::TuneRecord record;
    double likeness = 0;  // 0 to 1
};

// What a person said of a setting of this tune and another.
struct SaidOf {
    tune::TuneRecord one, other;
    bool is_same = true;
};

struct TunePage {
    tune::TuneRecord record;                 // the first setting that is there
    tune::TuneFacts facts;                   // of that setting
    std::vector<tune::TuneRecord> settings;  // all that are there
    std::vector<ProbableKin> kin;            // other tunes that are probably this one, likest first
    std::vector<SaidOf> said;                // in the order it was said
    bool is_gone = false;                    // its file is no longer there
    std::string abc;                         // the setting's own text
    std::optional<InHand> in_hand;           // on an instrument, or with some notes only
};

Document describe(const TunePage& page);
std::string as_json(const TunePage& page);

}  // namespace report
