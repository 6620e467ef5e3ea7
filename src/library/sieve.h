// One pass over all present settings, each judged by every filter given. Private to this room.
#pragma once

#include <cstdint>
#include <vector>

#include "library/answer.h"
#include "library/database.h"
#include "library/selection.h"

namespace library {

struct Sifted {
    std::int64_t tune = 0;
    std::int64_t setting = 0;
    std::uint32_t failed = 0;      // bit n: does not pass the n-th filter given
    std::uint32_t rank = 0;        // in Selection::goes, from 1; 0 where it is not in it
    int lacking = 0;               // needed notes that Selection::nearest_to has not
    bool has_other_notes = false;  // as in TuneNotes; of those that passed
    bool is_open_key = false;      // as in Tally::open_keys
    music::NoteSet needed;         // grace notes included where the selection says so
};

// The settings that pass, one a tune unless the selection asks for all, ascending by tune and setting; and the tally.
struct Sifting {
    std::vector<Sifted> passed;
    Tally tally;
};

Sifting sift(const Database& database, const Selection& selection);

// All note sets by their id.
std::vector<music::NoteSet> note_sets_by_id(const Database& database);

// An id as a place in a table that is held in memory. Throws Failure for one that no import ever gave: the library is
// damaged.
std::size_t place_of(const Database& database, std::int64_t id);
// The same for an id that has to be among `held`.
std::size_t place_among(const Database& database, std::int64_t id, std::size_t held);

}  // namespace library
