// Notes up and down, and a new note in its place.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "collection/collection.h"
#include "hands/drill.h"
#include "instruments/instrument.h"
#include "music/note_set.h"

namespace answers {

// One of the two holds a note.
struct DrillQuestion {
    music::NoteSet have;
    music::NoteSet fresh;                                       // the new notes
    std::shared_ptr<const instruments::Instrument> instrument;  // may be null
};

// The notes and the instrument of a player, where the question has none; of a class the notes that all of them have,
// and the instrument where it is everyone's. Throws Refused.
DrillQuestion drill_for(const collection::Collection& collection, const std::string& player, DrillQuestion question);

struct DrillAnswer {
    music::NoteSet have;  // without the new ones
    music::NoteSet fresh;
    std::shared_ptr<const instruments::Instrument> instrument;
    std::vector<hands::Passage> drill;
    int fifths = 0;   // of the signature that spells the notes
    std::string abc;  // the same as an ABC tune, a part for each passage
};

// Needs no collection.
DrillAnswer answer(const DrillQuestion& question);

// `Up and down`, `C5 in its place`.
std::string title_of(const DrillAnswer& answer, const hands::Passage& passage);

}  // namespace answers
