// Why a step of the path comes where it does, in plain words.
#pragma once

#include <string>

#include "answers/path.h"
#include "music/note_set.h"

namespace report {

// Notes parted by blanks; by name, the names alone.
std::string step_notes(const music::NoteSet& notes, bool by_name);

// The step opens nothing, nor helps another to.
bool is_for_nothing(const answers::PathAnswer& page, std::size_t at);

// `C5 now, because 503 of your tunes need only this: 210 reels, 140 jigs and 153 others; ...`. `at` counts from 0.
std::string reason_of(const answers::PathAnswer& page, std::size_t at);

}  // namespace report
