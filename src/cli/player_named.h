// PLAYER on the command line.
#pragma once

#include <string>

#include "instruments/instrument.h"
#include "library/library.h"

namespace cli {

// Any case and accents. Throws Misuse with the names there are for one that is none.
collection::PlayerRecord player_named(const collection::Collection& library, const std::string& name);

// As one to be given to a player. Throws Misuse for what is no name, and for one that behind @ would mean an
// instrument.
tune::PlayerName new_player_name(const std::string& written);
void refuse_name_of_instrument(const tune::PlayerName& name);  // the second half of that

// The one in the player's hands; null when not said. Throws Misuse when this program does not know it (any longer).
const instruments::Instrument* instrument_of(const tune::Player& player);

// The same, null also when this program does not know it: for what has an answer all the same.
const instruments::Instrument* known_instrument_of(const tune::Player& player);

// What the player has: see repertoire/notes_at_hand.h. Of a tune in several settings the one that asks for fewest notes
// beyond those the player said. Empty when neither notes nor tunes were said. An instrument that is not known takes no
// note away.
music::NoteSet notes_of(const collection::Collection& library, const collection::PlayerRecord& record);

// The same; throws Misuse that says how to give some where there are none, and as instrument_of does.
music::NoteSet some_notes_of(const collection::Collection& library, const collection::PlayerRecord& record);

}  // namespace cli
