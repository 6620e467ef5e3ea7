// Phrases of a part compared by what sounds in them, and named by letters.
#pragma once

#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "music/melody.h"
#include "tune/structure.h"

namespace analysis {

// One of the bars of a part as it is played once through: without its pick-up, with its last ending only.
struct PlayedBar {
    std::uint32_t bar = 0;    // into Melody::bars
    std::uint32_t count = 1;  // 4 for `Z4`, 0 for the second piece of a bar written in two
};

// Bars of a phrase: 1 in parts of up to five bars, 2 below sixteen, else 4, so that parts of 4, 8 and 16 bars have
// four. Source: common practice, no source.
int phrase_bars(int part_bars);

// Phrases of `bars` bars (1 and more), one part after the other and never across the end of one; a single bar left over
// joins the phrase before. `shapes`: one for each of Melody::bars, equal for equal bars. `numbers`: those of
// number_bars().
//
// Equal notes and lengths have the same letter, whatever the last bar lacks in favour of a pick-up that follows it. Two
// phrases that sound alike for half of their time or more (notes of one pitch at one place) have the same letter, the
// later one with a prime. Only the first 26 different phrases are looked at for likeness.
// Source: common practice, no source; the half is a house choice.
std::vector<tune::Phrase> plan_phrases(const music::Melody& melody, std::span<const std::vector<PlayedBar>> parts,
                                       int bars, std::span<const std::uint64_t> shapes, std::span<const int> numbers);

// True when the shorter of two bars is how the longer one begins, its last note cut where it ends, and is at least half
// of it.
bool begins_alike(const music::Melody& melody, std::uint32_t bar, std::uint32_t other);

// `a` to `z`, then `aa`, `ab` ..., from 0; `first` is `a` or `A`.
std::string letter_name(std::size_t index, char first);

// For each value the index of its first equal: its own where it is the first.
std::vector<std::uint32_t> first_equals(std::span<const std::uint64_t> values);

}  // namespace analysis
