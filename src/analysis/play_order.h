// The bars of a tune as they are played, so that repeat signs and written-out repeats come to the same.
#pragma once

#include <cstdint>
#include <vector>

#include "tune/outline.h"

namespace analysis {

// Indexes into Outline::bars. Repeats and endings are played out, and a tune that goes back to its beginning
// (Outline::end stands in an earlier bar than the last) is played again up to its end, without repeats and with the
// last endings. Pick-ups are left out, and so are empty bars at both ends. At most 17 times the bars there are.
std::vector<std::uint32_t> play_bars(const tune::Outline& outline);

// A block this long or longer that is played again at once counts once. Source: house choice; a part or half a part,
// where a shorter block is a figure that the tune itself repeats.
constexpr std::size_t kShortestBlock = 4;

// Beyond this many bars no block is sought: the search takes time with the square of them. Source: house choice; a tune
// has 16 to 64.
constexpr std::size_t kMostBarsFolded = 512;

// play_bars, without what is played on going back to the beginning, with each block that follows itself left once, the
// longest first: A A B B and A B both give A B. The end of a block may be short where the pick-up of the next goes in:
// `G2 |` for `G2 D |`.
std::vector<std::uint32_t> play_bars_once(const tune::Outline& outline);

// Ticks of most of these bars; the longer of two as frequent. 0 when there are none.
std::uint32_t usual_bar_length(const tune::Outline& outline, const std::vector<std::uint32_t>& bars);

}  // namespace analysis
