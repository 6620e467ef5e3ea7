// Which of two notes is easier to learn next. It only ever decides between orders of equal cost.
#pragma once

#include "music/note_set.h"

namespace planner {

// True when `a` is to be learnt rather than `b` beside the `known` notes: a natural before an accidental, then the
// smaller leap from the nearest known note, then the lower pitch. A total order for each `known`. MIDI numbers. Source:
// house choice; naturals first and small leaps first are common practice of teaching.
bool is_easier(int a, int b, const music::NoteSet& known) noexcept;

// The same for groups: fewer notes first, then note by note from the easiest. Neither may be empty.
bool is_easier(const music::NoteSet& a, const music::NoteSet& b, const music::NoteSet& known);

}  // namespace planner
