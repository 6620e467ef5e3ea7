// The compass of a collection as a ladder: which notes are there, and how many tunes each of the others would open.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "collection/answer.h"
#include "instruments/instrument.h"
#include "music/note_set.h"

namespace answers {

struct Rung {
    int midi = 60;
    bool is_had = false;
    bool is_fresh = false;   // new: it is neither had nor lacking
    std::int64_t opens = 0;  // tunes that lack it alone; of a new one tunes that lacked only new ones
    std::int64_t uses = 0;   // tunes that need it

    friend bool operator==(const Rung&, const Rung&) = default;
};

// Notes that open tunes only together: one of them, or all, open nothing alone.
struct RungGroup {
    music::NoteSet notes;    // two or three
    std::int64_t opens = 0;  // tunes that lack just these

    friend bool operator==(const RungGroup&, const RungGroup&) = default;
};

struct Rungs {
    std::vector<Rung> rungs;        // low to high
    std::vector<RungGroup> groups;  // the best first, then the lowest
    std::int64_t tunes = 0;
    std::int64_t open = 0;    // with what is had and what is new
    std::int64_t hardly = 0;  // notes left out: lacking, and needed by fewer than one tune in kHardlyOneIn
    std::optional<int> next;  // the one lacking note that opens most; of equals the lowest

    friend bool operator==(const Rungs&, const Rungs&) = default;
};

// Source: house choice; in thirteen thousand tunes it folds away ten notes of thirty-six.
constexpr std::int64_t kHardlyOneIn = 100;

// A tune of several settings is open when one of them is. `instrument` may be null; else notes it has not are left out.
Rungs rungs_of(const std::vector<collection::TuneNotes>& tunes, const music::NoteSet& have, const music::NoteSet& fresh,
               const instruments::Instrument* instrument);

}  // namespace answers
