// What choosing a tune to learn needs, fetched from a collection.
#pragma once

#include <optional>
#include <vector>

#include "collection/collection.h"
#include "instruments/instrument.h"
#include "repertoire/learning_load.h"

namespace answers {

// Somebody who learns, and the tunes there are to choose from.
struct Learning {
    repertoire::Learner learner;
    std::vector<repertoire::TuneMatter> matters;  // of the records, in their order; without those that have no note
    std::vector<std::size_t> records;             // of each matter: into the records
};

// `have` are the notes at hand. Bars are those of all settings of the tunes the player knows or once knew.
Learning learning_of(const collection::Collection& collection, const collection::PlayerRecord& player,
                     const music::NoteSet& have, const std::vector<tune::TuneRecord>& records);

// What the hand has to do for a note, in tenths of the instrument's costs; nothing where the setting's
// ABC was not kept or has no note.
std::optional<int> hand_for_a_note(const collection::Collection& collection, tune::SettingId setting,
                                   const instruments::Instrument& instrument);

}  // namespace answers
