// Good sets of notes to start a search from. Inside this room only.
#pragma once

#include <cstddef>
#include <span>

#include "music/note_set.h"
#include "planner/cover_search.h"
#include "planner/deadline.h"
#include "planner/note_problem.h"

namespace planner {

// Offers sets of `count` of the `notes`, all of the `forced` ones among them, that no exchange of one note for another
// makes worth more (unless the deadline passes), and what an exchange makes of them. `notes` holds the forced notes and
// at least `count`.
void offer_starts(std::span<const Demand> demands, const music::NoteSet& forced, const music::NoteSet& notes,
                  std::size_t count, BestSets& best, const Deadline& deadline);

}  // namespace planner
