// One written version of a tune as it was read: what its header says and what its music is.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/span.h"
#include "music/melody.h"

namespace tune {

// A voice other than the first, or a temporary layer laid over it: kept apart from the melody.
struct OtherVoice {
    std::string id;  // `2`, `bass`, ...; `&` for overlay layers
    music::Melody melody;
};

// A header line that is carried but not interpreted further: composer, source, transcriber ...
struct HeaderText {
    char letter = ' ';
    std::string text;  // escapes resolved, UTF-8

    friend bool operator==(const HeaderText&, const HeaderText&) = default;
};

// `Q:`. What it does not say is empty.
struct Tempo {
    std::optional<music::Duration> beat;  // the note values of one beat together; empty for `Q:120`, which names none
    std::optional<int> beats_a_minute;
    std::string words;  // `Slow`; whatever is no tempo too

    friend bool operator==(const Tempo&, const Tempo&) = default;
};

// "At the first note": fields between the first K: and the first note of the melody count, as lines or in brackets.
struct Setting {
    std::optional<std::string> number;  // of X:, digits as written without leading zeros; empty when missing or bare
    std::vector<std::string> titles;    // T: lines in order, escapes resolved; may be empty
    std::optional<std::string> rhythm;  // R: at the first note, as written
    std::vector<HeaderText> texts;      // A B C D F G H N O S Z in the order written
    std::optional<std::string> part_order;  // P: of the header
    music::Meter meter;                     // at the first note
    bool meter_is_stated = false;
    music::Duration unit{1, 8};     // at the first note
    std::optional<Tempo> tempo;     // at the first note
    int sung_syllables = 0;         // under the notes (w:), of all verses; those of one letter left out
    music::StatedKey key;           // of the first K:
    music::StatedKey key_in_force;  // at the first note
    music::Melody melody;           // the first voice
    std::vector<OtherVoice> others;
    std::optional<base::Span> key_where;  // of the K:, R: and M: in force at the first note, where there are any
    std::optional<base::Span> rhythm_where;
    std::optional<base::Span> meter_where;
    std::uint32_t line = 1;  // of X: (or of the first line), from 1
    base::Span where;        // the whole block in the source
    std::size_t errors = 0;  // diagnostics of severity error met while reading it
};

}  // namespace tune
