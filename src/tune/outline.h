// The melody of a setting reduced to what comparing tunes and finding them by ear needs, and its stored form.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace tune {

// Time is counted in ticks. Source: house choice, 2^7 * 3 * 5 * 7: every power of two down to a 1/128 note is exact,
// and so is it divided by 3, 5 or 7. Anything else is rounded to the nearest tick.
constexpr std::uint32_t kTicksPerWhole = 13440;
constexpr std::uint32_t kMostTicks = 0x7FFFFFFF;

// A struck note: the top one of a chord, a tied continuation left out, grace notes left out.
struct OutlineNote {
    std::uint32_t at = 0;    // ticks from the bar line, at most kMostTicks; 0 begins the bar
    std::uint8_t midi = 60;  // 0..127

    friend bool operator==(const OutlineNote&, const OutlineNote&) = default;
};

struct OutlineBar {
    std::uint32_t first_note = 0;  // into Outline::notes; the bar runs to the next one's first, and may be empty
    std::uint32_t length = 0;      // ticks, its notes and rests together, at most kMostTicks
    std::int32_t number = 1;       // as a player counts, from 1; 0 for a pick-up at the start
    std::uint16_t endings = 0;     // when an ending begins here: bit 0 for the first time, bit 1 for the second ...
    bool is_pickup = false;
    bool begins_part = false;  // the first bar does, and so does a pick-up that leads into a part
    bool repeat_opens = false;
    bool repeat_closes = false;

    friend bool operator==(const OutlineBar&, const OutlineBar&) = default;
};

// In written order. A note lasts until the next one is struck, so a rest counts as the end of the note before it.
// Notes of a bar run in time: `at` never falls inside it.
struct Outline {
    std::vector<OutlineNote> notes;
    std::vector<OutlineBar> bars;
    // One past the last note for a player, where that is not the last one written: up to Fine, or to where a tune that
    // goes back to its beginning ends, or to what leads back there (analysis/tune_end.h). 1 to the notes there are.
    std::optional<std::uint32_t> end = std::nullopt;

    // One past the last note of a bar.
    std::size_t end_of(std::size_t bar) const {
        return bar + 1 < bars.size() ? bars[bar + 1].first_note : notes.size();
    }

    friend bool operator==(const Outline&, const Outline&) = default;
};

// For storing: a byte a note and one a bar in plain rhythm, 1.4 to 1.7 bytes a note in tune books, bars with them. The
// form carries a version of its own; the older ones are read too. Must be an outline as above.
std::string encode_outline(const Outline& outline);

// Nothing for bytes that are no such form: another version, cut short or gone on, values out of range. Memory stays
// within some twenty times that of `bytes`, whatever they are.
std::optional<Outline> decode_outline(std::string_view bytes);

}  // namespace tune
