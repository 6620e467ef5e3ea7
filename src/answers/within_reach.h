// Tunes a player could come to play.
#pragma once

#include "answers/tunes_asked.h"
#include "collection/player_record.h"
#include "collection/selection.h"
#include "music/note_set.h"

namespace answers {

// Within the reach of the player's instrument, of the filter, and of whoever plays along. Settings are chosen nearest
// to `have`.
collection::Selection within_reach(const TunesAsked& asked, const collection::PlayerRecord& player,
                                   const music::NoteSet& have);

// What the player said of a tune; null where nothing.
const tune::PlayerTune* said_of(const collection::PlayerRecord& player, tune::TuneId tune);

}  // namespace answers
