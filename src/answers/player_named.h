// A player by name, and what is at hand of them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "answers/refusal.h"
#include "collection/collection.h"
#include "instruments/instrument.h"
#include "music/note_expression.h"

namespace answers {

// Any case and accents. Throws Refused with the names there are, and for a class with its members.
collection::PlayerRecord player_named(const collection::Collection& collection, const std::string& name);

// Any case and accents; nothing where there is no class of that name, or a player.
std::optional<collection::PlayerClass> class_named(const collection::Collection& collection, std::string_view name);

// Players as they were asked for: the members of a class in its place, each player once.
struct PlayersMeant {
    std::vector<std::string> names;
    std::vector<collection::PlayerClass> classes;  // that were named
};
PlayersMeant players_meant(const collection::Collection& collection, const std::vector<std::string>& names);

// The one in the player's hands; null when not said. Throws Refused when this program does not know it (any longer).
const instruments::Instrument* instrument_of(const tune::Player& player);

// The same, null also when this program does not know it: for what has an answer all the same.
const instruments::Instrument* known_instrument_of(const tune::Player& player);

// What the player has: see repertoire/notes_at_hand.h. Of a tune in several settings the one that asks for fewest notes
// beyond those the player said. Empty when neither notes nor tunes were said. An instrument that is not known takes no
// note away.
music::NoteSet notes_of(const collection::Collection& collection, const collection::PlayerRecord& record);

// The same; throws Refused where there are none, and as instrument_of does.
music::NoteSet some_notes_of(const collection::Collection& collection, const collection::PlayerRecord& record);

// `@NAME`: the notes of an instrument of that name, else those of a player, else those all of a class have. The
// collection must outlive it.
music::NamedNotes names_in(const collection::Collection& collection);

}  // namespace answers
