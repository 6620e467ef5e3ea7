// What each note is worth to a player: how many tunes need it, how many would be lost without it, how many it opens.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/goal.h"
#include "planner/note_groups.h"
#include "planner/note_problem.h"

namespace planner {

enum class Had : std::uint8_t { no, in_part, yes };  // in part: some notes of a group

// Of one group of notes, by its lead (note_groups.h). Tunes are counted, not weighed.
struct NoteWorth {
    int lead = 0;
    Had had = Had::no;
    std::int64_t uses = 0;   // tunes that need a note of the group
    std::int64_t lost = 0;   // of those open now, tunes that need a note of the group
    std::int64_t opens = 0;  // tunes that lack nothing but notes of the group

    friend bool operator==(const NoteWorth&, const NoteWorth&) = default;
};

// One for each group with a note that is had or that a tune needs: most used first, then the lower lead. A group counts
// as had where all of its notes are that are in `have` or that tunes need.
std::vector<NoteWorth> worth_of_notes(std::span<const Wanted> wanted, const music::NoteSet& have,
                                      const NoteGroups& groups);

// What the tunes need from nothing, one demand for each tune.
std::vector<Demand> needs_of(std::span<const Wanted> wanted, const NoteGroups& groups);

}  // namespace planner
