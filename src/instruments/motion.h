// What a hand, a bow arm or a breath has to do between one note and the next, counted one kind at a time.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace instruments {

// Which of these make a tune hard on which instrument: common practice, no source.
enum class Motion : std::uint8_t {
    direction,  // the air turns: press to draw, blow to draw
    row,        // another row of buttons
    string,     // another string; one skipped counts again
    reach,      // buttons or frets further apart than a hand covers
    register_,  // a wind instrument breaks into another register
    half_hole,
    fork,        // a cross-fingering
    fingers,     // three fingers or more move at once
    key,         // a key of a wind instrument
    bend,        // a bent note
    lever,       // a string of a lever harp is wanted in its other state
    grade,       // what the grade of the note lies above the easiest
    second_way,  // a note made otherwise than usual in the tune; a usual way that is not the table's first, once
};
constexpr std::size_t kMotions = 13;

// Buttons or frets from one note to the next that a hand covers without moving. Source: house choice; four fingers.
constexpr int kCovered = 3;
// Fingers that move at once and are counted. Source: house choice, after practice (a cross-fingered C swaps three).
constexpr int kFingersAtOnce = 3;

// `direction`, `row`, `half-hole`, ...: used by instrument files, JSON and CSV alike.
std::string_view motion_token(Motion motion) noexcept;
std::optional<Motion> parse_motion(std::string_view token) noexcept;
const std::array<std::string_view, kMotions>& motion_tokens() noexcept;

// What one of each costs, 0 to kDearestMotion; 0 is not counted at all.
using MotionCosts = std::array<std::uint8_t, kMotions>;
constexpr int kDearestMotion = 100;

}  // namespace instruments
