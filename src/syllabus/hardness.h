// What makes a tune hard to learn by ear, in points.
#pragma once

#include <optional>

#include "music/note_set.h"

namespace syllabus {

// A point for a range over an octave, one for a leap of a sixth or more, one for more than kManyBars different bars and
// one more for more than kVeryManyBars. 0 to 4. Source of what counts: common practice, no source; of the numbers:
// house choice.
constexpr int kOctave = 12;  // semitones
constexpr int kSixth = 8;    // semitones, the minor one
constexpr int kManyBars = 9;
constexpr int kVeryManyBars = 14;

// `largest_leap` in semitones.
int hardness_of(const music::NoteSet& needed, std::optional<int> largest_leap, int different_bars) noexcept;

}  // namespace syllabus
