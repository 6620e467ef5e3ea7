// How a tune is built: its parts and phrases, the bars that come again, the leaps, the notes that come once.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "music/duration.h"

namespace tune {

// Some bars that belong together. Bars are numbered as NoteUse of facts.h numbers them.
struct Phrase {
    std::string label;  // `a`, `b`; `a'` is nearly `a`; after `a'''` follow `a4`, `a5` ...; after `z` `aa`
    int first_bar = 0;
    int last_bar = 0;  // included

    friend bool operator==(const Phrase&, const Phrase&) = default;
};

struct Part {
    std::string label;  // of its P:, else a capital letter; parts of the same music have the same one
    // Half-open ranges into Melody, with the pick-up and all endings.
    std::uint32_t bars_begin = 0;
    std::uint32_t bars_end = 0;
    std::uint32_t sounds_begin = 0;
    std::uint32_t sounds_end = 0;
    // Where its first and its last ending begin, into Melody::bars; both are bars_end where none is written.
    std::uint32_t first_ending = 0;
    std::uint32_t last_ending = 0;
    int first_bar = 0;  // number of the first bar after the pick-up
    int last_bar = 0;   // included
    int bars = 0;       // played once through, with the last ending in the place of the others
    bool is_repeated = false;
    // Where a `:|` closes a repeat with this part: index into Structure::parts of the first part that is played again.
    std::optional<std::uint32_t> repeat_from;  // its own index where the part is repeated alone
    std::optional<music::Duration> pickup;     // its length, in whole notes
    std::vector<Phrase> phrases;               // played once through; letters begin anew with `a`

    friend bool operator==(const Part&, const Part&) = default;
};

struct Structure {
    std::vector<Part> parts;      // as written; empty for a tune without a note or rest
    std::vector<Phrase> phrases;  // of all parts in turn, the same letters throughout
    // For each of Melody::bars the first bar of the same notes and lengths: itself where it is the first.
    std::vector<std::uint32_t> like;
    int different_bars = 0;  // pick-ups are left out

    friend bool operator==(const Structure&, const Structure&) = default;
};

struct Leap {
    int from = 60;  // MIDI
    int to = 60;
    int bar = 0;  // of the second note

    friend bool operator==(const Leap&, const Leap&) = default;
};

// Moves from one struck note to the next, in semitones up or down.
struct Leaps {
    int repeats = 0;              // 0
    int steps = 0;                // 1 and 2
    int skips = 0;                // 3 and 4
    int leaps = 0;                // 5 and more
    std::optional<Leap> largest;  // the widest move of any size above 0, the first of equals

    friend bool operator==(const Leaps&, const Leaps&) = default;
};

// A note that is struck once in the whole tune.
struct LoneNote {
    int midi = 60;
    int bar = 0;                          // 0 in the pick-up a tune begins with
    std::optional<music::Duration> beat;  // counted from 1: `5/2` is halfway from the second to the third
    bool is_strong = false;               // as music::is_strong

    friend bool operator==(const LoneNote&, const LoneNote&) = default;
};

// Its parts in turn as they are played, repeats played out: `AABB`, and `ABAB` where one repeat holds both; parted by
// blanks where a label has several letters.
std::string form_of(const Structure& structure);

}  // namespace tune
