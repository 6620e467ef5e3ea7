// How long a tune takes a first-year class to play.
#pragma once

#include <string_view>

namespace syllabus {

// Source: common practice, no source.
constexpr int kTimesThrough = 3;

// Bars of one time through: the written ones, repeats played out by `form` (`AABB`; letters parted by blanks where one
// has more than a letter).
int bars_played(int written_bars, std::string_view form);

// Of kTimesThrough times, in seconds. `rhythm` is a token, maybe empty.
int seconds_to_play(std::string_view rhythm, int bars);

}  // namespace syllabus
