// Meters, and which beats of a bar are strong.
#pragma once

#include <cstdint>
#include <string>

#include "music/duration.h"

namespace music {

// `free` stands for `M:none`, no M: at all, and what could not be read.
struct Meter {
    enum class Kind : std::uint8_t { free, common, cut, fraction };

    Kind kind = Kind::free;
    std::uint16_t beats = 4;  // of `unit`; a sum such as 2+3+2 counts by its total
    std::uint16_t unit = 4;   // the note that counts one: 8 in 6/8

    bool is_free() const noexcept { return kind == Kind::free; }
    // Of a whole bar, in whole notes. Must not be free.
    Duration bar_length() const { return Duration(beats, unit); }
    // 6/8, 9/8, 12/8: beats of three. Source: ABC standard 2.1, section 4.13, which names these for its tuplets.
    bool is_compound() const noexcept { return unit == 8 && (beats == 6 || beats == 9 || beats == 12); }

    friend bool operator==(const Meter&, const Meter&) = default;
};

std::string to_string(const Meter& meter);  // `6/8`, `4/4` for C, `2/2` for C|, `none`

// A note that begins on a beat of the foot is strong. `at` is its place in the bar, in whole notes from the bar line.
// Beats: dotted crotchets in compound time, half bars in 4/4 and 2/2, minims in 3/2, the first of three in 3/4 and 3/8,
// else units. Source: common practice, no source.
bool is_strong(const Meter& meter, const Duration& at);

}  // namespace music
