// How much more or less a motion costs by the time there is for it.
#pragma once

#include "hands/line.h"

namespace hands {

// Costs are counted in so many parts of one cost of an instrument's file.
constexpr int kCostParts = 12;

// In these parts: the cost grows as the time shrinks. With a crotchet to make it a motion costs what the file says,
// with a quaver twice that, with a minim half. It grows no further below a quaver, since tunes are written in quavers
// and in semiquavers and played alike; nor does it shrink below a half, since a motion stays one.
// Source: house choice, after practice (a change of direction on quavers is hard, on a long note easy).
int parts_for(const music::Duration& time);

// Before a first note there is all the time one likes.
inline const music::Duration kAllTheTime{1, 1};

// From the beginning of the note before to the note: the length of the one before, and rests between.
music::Duration time_before(const std::vector<LineNote>& line, std::size_t at);

}  // namespace hands
