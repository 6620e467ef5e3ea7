// Everything about one tune.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "answers/notes_asked.h"
#include "collection/collection.h"
#include "hands/handling.h"
#include "instruments/instrument.h"
#include "tune/facts.h"
#include "tune/record.h"

namespace answers {

struct TuneQuestion {
    std::string which;                                          // an id, a title or a part of one
    std::shared_ptr<const instruments::Instrument> instrument;  // how it lies on it; null: not asked
    std::optional<std::string> have;                            // NOTES: what can be done with these alone
    bool any_ways = false;  // each note by whichever way is least work, in place of one way through the tune
};

// How a tune lies on an instrument.
struct InHand {
    std::shared_ptr<const instruments::Instrument> instrument;  // null where only notes were given
    std::string notes;         // as given, where the player has not all that the instrument has
    hands::Handling handling;  // without an instrument only its near miss
};

struct ProbableKin {
    tune::TuneRecord record;
    double likeness = 0;  // 0 to 1
};

// What a person said of a setting of this tune and another.
struct SaidOf {
    tune::TuneRecord one, other;
    bool is_same = true;
};

struct TuneAnswer {
    tune::TuneRecord record;                 // the first setting that is there
    tune::TuneFacts facts;                   // of that setting
    std::vector<tune::TuneRecord> settings;  // all that are there
    std::vector<ProbableKin> kin;            // other tunes that are probably this one, likest first
    std::vector<SaidOf> said;                // in the order it was said
    bool is_gone = false;                    // its file is no longer there
    std::string abc;                         // the setting's own text
    std::optional<InHand> in_hand;           // on an instrument, or with some notes only
    std::vector<LeftOutNotes> left_out_notes;
};

// Throws Refused.
TuneAnswer answer(const collection::Collection& collection, const TuneQuestion& question);

}  // namespace answers
