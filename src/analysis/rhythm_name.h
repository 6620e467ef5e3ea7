// What kind of tune it is: by what the file says of it, or by meter and pattern when it says nothing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "tune/finding.h"
#include "tune/setting.h"

namespace analysis {

struct FoundRhythm {
    std::optional<tune::Finding<std::string>> rhythm;  // a token of rhythm_words.h; empty where nothing speaks for any
    // Likeliest first: beside a computed rhythm the others that cannot be ruled out; beside a stated one that its meter
    // contradicts, what the meter and the notes speak for. Empty otherwise.
    std::vector<std::string> possible;
};

// In this order: R:, a jig in 9/8 being a slip jig; a kind that a title names and the meter suits; words under the
// notes or a slow tempo (Q:, N:), which make an air; meter and pattern.
FoundRhythm find_rhythm(const tune::Setting& setting);

}  // namespace analysis
