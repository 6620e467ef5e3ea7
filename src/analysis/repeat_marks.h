// Repeat signs and endings that lack their other half. Half-written repeats that every player understands are none:
// `:|` without `|:` goes back to the beginning of its part (ABC standard 2.1, section 4.8), and a `|:` that is not
// closed ends with its part, at a thick bar or at the next `|:`. Printed books of the eighteenth century end a tune so
// as a rule.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "music/melody.h"

namespace analysis {

struct RepeatFault {
    enum class Kind : std::uint8_t {
        never_closed,        // `|:`, and neither `:|` nor a thick bar nor another `|:` to the end
        first_ending_alone,  // an ending 1 and no other
        later_ending_alone   // an ending 2 or above, and no ending 1 before it
    };

    Kind kind = Kind::never_closed;
    std::uint32_t bar = 0;  // into Melody::bars: where the sign stands

    friend bool operator==(const RepeatFault&, const RepeatFault&) = default;
};

// By bar, ascending. Linear in the number of bars.
std::vector<RepeatFault> find_repeat_faults(const music::Melody& melody);

// `1`, `1,3`, `1-3`: of a list the first number counts.
bool is_first_ending(std::string_view ending) noexcept;

}  // namespace analysis
