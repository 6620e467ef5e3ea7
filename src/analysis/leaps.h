// How the melody moves from note to note, and which notes it strikes only once.
#pragma once

#include <span>
#include <vector>

#include "music/melody.h"
#include "tune/structure.h"

namespace analysis {

// `numbers` are those of number_bars() for the same melody. The melody is the top note of each chord. A rest ends a
// move, for there is time to reach the next note; a tied note is not struck and moves nowhere; grace notes do not
// count. The second ending follows what stands before the first. The way back of a repeat is not counted.
tune::Leaps find_leaps(const music::Melody& melody, std::span<const int> numbers);

// Ascending by pitch. Beats are those a player counts: dotted crotchets in 6/8, 9/8 and 12/8, minims in 4/4, 2/2 and
// 3/2, crotchets in 3/4 and 2/4, else the meter's unit. Source: common practice, no source.
std::vector<tune::LoneNote> find_lone_notes(const music::Melody& melody, std::span<const int> numbers);

}  // namespace analysis
