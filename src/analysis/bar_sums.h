// Whether the bars of a melody last as long as its meter asks. Short bars beside a repeat sign, an ending or a double
// bar are made up by the bar the player goes on with, and are no fault.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "music/melody.h"

namespace analysis {

// A bar that is too long or too short, and that nothing beside it makes up.
struct OddBar {
    enum class Likely : std::uint8_t {
        note_length,    // no more can be said
        line_missing,   // it holds two whole bars
        line_too_many,  // it and the next make one whole bar
        line_misplaced  // it and the next make two whole bars
    };

    std::uint32_t bar = 0;  // into Melody::bars; the first of the two
    Likely likely = Likely::note_length;
    bool at_edge = false;  // it begins or ends a part or an ending

    friend bool operator==(const OddBar&, const OddBar&) = default;
};

// Most bars under one meter do not have its length: rather M: or L: is wrong than every bar.
struct MeterMisfit {
    music::Meter meter;
    std::uint32_t first_bar = 0;            // the first that does not fit
    int misfits = 0;                        // bars that do not fit
    int bars = 0;                           // whole bars under that meter; pick-ups and the like left out
    std::optional<music::Duration> length;  // that more than half of the bars have

    friend bool operator==(const MeterMisfit&, const MeterMisfit&) = default;
};

struct BarSums {
    std::vector<OddBar> odd;           // ascending; none under a meter that misfits
    std::vector<MeterMisfit> misfits;  // by meter, in the order they are met
};

// Bars in free meter, rests of several bars and bars that cannot be added up are left alone. Linear in the number of
// bars.
BarSums add_up_bars(const music::Melody& melody);

}  // namespace analysis
