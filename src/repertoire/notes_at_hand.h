// The notes a player has.
#pragma once

#include <span>

#include "instruments/instrument.h"
#include "music/note_set.h"
#include "tune/player.h"

namespace repertoire {

// The notes the player said, with those of the tunes the player knows: who plays a tune has its notes. A tune stands in
// `known` by its easiest setting, and one of which the player says no more than `learning` is left out by the caller.
// With an instrument (it may be null) only notes that it has. Empty for a player of whom neither is known.
music::NoteSet notes_at_hand(const tune::Player& player, std::span<const music::NoteSet> known,
                             const instruments::Instrument* instrument);

}  // namespace repertoire
