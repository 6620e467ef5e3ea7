// A small instrument file of one's own, for tests to add to.
#pragma once

#include <string>

#include "instruments/instrument_file.h"
#include "instruments/known.h"

namespace shed_box {

inline instruments::Instrument read(const std::string& text) {
    return instruments::read_instrument(text, "mine", "mine.toml", instruments::find);
}

// Lines 1 to 3; tests add theirs from line 4 on.
inline const std::string kHead = "title = \"Shed box\"\nfamily = \"one-row\"\nsource = \"the box in the shed\"\n";
inline const std::string kColumns =
    "columns = [\"note\", \"row\", \"position\", \"direction\", \"grade\"]\n";  // line 4
inline const std::string kTwoWays =
    "ways = [[\"D4\", \"D row\", 3, \"press\", 1], [\"E4\", \"D row\", 3, \"draw\", 1]]\n";
inline const std::string kGood = kHead + kColumns + kTwoWays;  // lines 1 to 5

inline std::string based_on(const std::string& id) {
    return "title = \"Shed box\"\nbased_on = \"" + id + "\"\n";  // lines 1 and 2
}

}  // namespace shed_box
