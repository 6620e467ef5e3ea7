// What a learning path is asked for: the tunes wanted, the notes already there, and how hard to think.
#pragma once

#include <cstddef>
#include <cstdint>

#include "music/note_set.h"
#include "tune/record.h"

namespace planner {

// One tune to open. `needed` must not be empty: what to make of a tune without notes is the caller's business.
struct Wanted {
    tune::TuneId id;
    music::NoteSet needed;
    std::int64_t weight = 1;  // 0 or more; a tune of weight 0 is planned for, but costs nothing while it waits
};

// The weights of all tunes together must not exceed this, so that every cost is an exact 64-bit integer.
constexpr std::int64_t kMaxTotalWeight = std::int64_t{1} << 46;

// When to stop proving and print the gap instead. Source: house choice: a patient user's ten seconds, and the memory of
// a small laptop (29 notes that do not fall apart need 1 GiB).
struct Limits {
    std::size_t max_states = 2'000'000;                  // sets of notes a search may meet, 200 bytes or so each
    std::size_t max_table_bytes = std::size_t{1} << 30;  // of a table over all sets of notes of a block
    double max_seconds = 10;                             // 0 or less: only what takes no time to speak of is proven
};

struct Goal {
    music::NoteSet have;         // notes that are there at the start
    std::size_t max_steps = 0;   // steps to show; 0: all. Cost and bounds always speak of the whole path
    std::size_t runners_up = 3;  // alternatives named beside each step, at most
    Limits limits;
};

}  // namespace planner
