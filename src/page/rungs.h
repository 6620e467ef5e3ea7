// The ladder of notes: what each note opens now, and which few open something only together.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "music/note_set.h"

namespace page {

// So many groups are told. Source: house choice; a picture has room for three brackets.
constexpr std::size_t kMostBrackets = 3;
// Notes of a group at most. Source: house choice; more would be no next step.
constexpr int kMostTogether = 3;

struct Rung {
    int midi = 60;
    bool is_had = false;
    std::int64_t uses = 0;   // tunes that need it
    std::int64_t opens = 0;  // tunes that lack it alone

    friend bool operator==(const Rung&, const Rung&) = default;
};

// Two or three notes of which one at least opens nothing by itself.
struct Bracket {
    music::NoteSet notes;
    std::int64_t opens = 0;  // tunes that lack exactly these

    friend bool operator==(const Bracket&, const Bracket&) = default;
};

struct Rungs {
    std::int64_t tunes = 0;         // with a note
    std::int64_t open = 0;          // of these, now
    std::vector<Rung> rungs;        // that are had or needed, low to high
    std::vector<Bracket> brackets;  // the best first: opens most, then fewer notes, then lower ones

    friend bool operator==(const Rungs&, const Rungs&) = default;
};

// `tunes`: what each needs; an empty set is no tune here.
Rungs rungs_of(std::span<const music::NoteSet> tunes, const music::NoteSet& have);

}  // namespace page
