// Where a tune ends for somebody who plays it.
#pragma once

#include <cstddef>

#include "music/melody.h"

namespace analysis {

// One past the last sound, in the order written: up to Fine; where the tune goes back to its beginning (D.C.) or to a
// sign (D.S.), up to a fermata over the end of a part, or to the end of the part it goes back to; to the end of a coda;
// else to the end, but for a lead-back: notes at the end of a last bar that is full although the tune begins with a
// pick-up of the same notes, or, between a sign at the beginning and one at the end, as long as the pick-up. All sounds
// where nothing says otherwise. Never before the first note.
std::size_t find_tune_end(const music::Melody& melody);

}  // namespace analysis
