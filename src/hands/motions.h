// Which motions of the hand lie in a way of making a note, and between two of them.
#pragma once

#include <array>

#include "instruments/instrument.h"

namespace hands {

// How many of each kind, by instruments::Motion.
using MotionCounts = std::array<int, instruments::kMotions>;

inline int& count_of(MotionCounts& counts, instruments::Motion motion) {
    return counts[static_cast<std::size_t>(motion)];
}
inline int count_of(const MotionCounts& counts, instruments::Motion motion) {
    return counts[static_cast<std::size_t>(motion)];
}

// What the note asks for by itself: half-hole, fork, key, bend, grade. Read off the words of its technique.
MotionCounts motions_in(const instruments::Way& way);

// What lies between two ways of `instrument`: direction, row, string, reach, register, fingers. Levers are not among
// them, since they stay as they were set.
MotionCounts motions_between(const instruments::Instrument& instrument, const instruments::Way& from,
                             const instruments::Way& to);

// 1, 2 or 3; 1 for whatever has no registers.
int register_of(const instruments::Way& way);

// Fingers (holes) that change between two fingerings written alike: `XXX|XOO` against `XXX|OOO` is 1. 0 where they
// cannot be compared.
int fingers_changed(const std::string& from, const std::string& to);

}  // namespace hands
