// How many bars the parts of a melody have.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

#include "music/melody.h"

namespace analysis {

// From one double bar or repeat sign to the next, played through once: of several endings the first counts.
struct PartLength {
    std::uint32_t first_bar = 0;  // into Melody::bars; a pick-up goes with its part
    int bars = 0;                 // by time, to the nearest whole bar
    int repeated_bars = 0;        // of all that stands between two repeat signs, this part in it

    friend bool operator==(const PartLength&, const PartLength&) = default;
};

// In written order. Nothing for a melody with a bar in free meter or one that cannot be added up.
std::vector<PartLength> measure_parts(const music::Melody& melody);

// Dances whose parts are whole groups of four bars. Airs, marches, set dances and harp pieces go their own ways, and of
// kinds without a word nothing is known. Source: common practice, no source.
bool has_even_parts(std::string_view rhythm) noexcept;

// Source: common practice, no source.
constexpr int kBarsOfPhrase = 4;

}  // namespace analysis
