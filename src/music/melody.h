// A melody as it is written: what sounds, how long, in which bar. Repeats are not unrolled.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/span.h"
#include "music/duration.h"
#include "music/key.h"
#include "music/meter.h"
#include "music/pitch.h"

namespace music {

// One note head of a sound. `pitch` is as spelled, with transposition already applied to it.
struct NoteHead {
    std::int16_t midi = 60;  // sounding, 0..127
    NoteName name;           // as written, before any transposition
    bool is_tied = false;    // goes on from the sound before and is not struck again
};

// A note, a chord, a grace note or a rest.
struct Sound {
    enum class Kind : std::uint8_t { note, grace, rest };

    Kind kind = Kind::note;
    std::uint8_t head_count = 0;   // 0 for a rest, above 1 for a chord; order as written
    std::uint32_t first_head = 0;  // into Melody::heads
    std::uint32_t bar = 0;         // into Melody::bars
    Duration length;               // of a grace note: nothing, it has no time of its own
    std::optional<Duration> at;    // from the bar line; empty where lengths no longer add up exactly
    base::Span where;              // into the source
};

// The music between two bar lines. A pick-up and an ending are bars like others.
struct Bar {
    std::uint32_t first_sound = 0;   // into Melody::sounds; the bar runs to the next one's first
    std::optional<Duration> length;  // sum of its notes and rests
    Meter meter;                     // in force at its start
    std::uint32_t unit_rests = 1;    // written bars it stands for: 4 for `Z4`
    bool repeat_opens = false;       // `|:` stands before it
    bool repeat_closes = false;      // `:|` stands after it
    bool thick_after = false;        // `||` or `|]` stands after it: a part ends
    std::string ending;              // `1`, `1,3`, ... when an ending begins here
    base::Span where;
};

struct KeyChange {
    std::uint32_t before_sound = 0;
    StatedKey key;
    Signature signature{};
};

// A part label (`P:A` in the body).
struct PartMark {
    std::uint32_t before_sound = 0;
    std::string label;
};

// A word or sign that says in which order the parts are played, or where they end. `al_coda` goes back too, and what is
// written behind it ends the tune.
struct OrderMark {
    enum class Kind : std::uint8_t { fine, da_capo, dal_segno, fermata, segno, al_coda };

    Kind kind = Kind::fine;
    std::uint32_t before_sound = 0;
    std::uint32_t bar = 0;  // into Melody::bars; one past the last where it stands after the last bar line
};

struct Melody {
    std::vector<Sound> sounds;
    std::vector<NoteHead> heads;
    std::vector<Bar> bars;
    std::vector<KeyChange> keys;  // the first is the header's
    std::vector<PartMark> parts;
    std::vector<OrderMark> order;
};

}  // namespace music
