// The notes of a melody as the hands meet them, one after the other, in the order written.
#pragma once

#include <cstddef>
#include <vector>

#include "music/duration.h"
#include "music/melody.h"

namespace hands {

// A note struck; grace notes are left out, and a tied note is one. Of a chord the top note is the melody's.
struct LineNote {
    int midi = 60;
    int bar = 0;                // as a player counts; 0 in a pick-up at the start
    std::size_t bar_index = 0;  // into Melody::bars
    std::size_t sound = 0;      // into Melody::sounds
    music::Duration length;     // with what is tied to it; nothing where lengths do not add up
    bool is_strong = false;
    bool is_beneath = false;          // another note of its chord lies above it
    music::Duration rest_before;      // between the note before and this one
    music::Duration bar_beats{1, 1};  // how many beats its bar lasts, at least one

    friend bool operator==(const LineNote&, const LineNote&) = default;
};

// From here on a note is long enough to get ready for the next: a crotchet. Source: house choice, after practice (a
// change of direction on quavers is hard, at a long note easy).
inline const music::Duration kLongNote{1, 4};

std::vector<LineNote> line_of(const music::Melody& melody);

// Without the notes beneath others.
std::vector<LineNote> top_of(std::vector<LineNote> line);

}  // namespace hands
