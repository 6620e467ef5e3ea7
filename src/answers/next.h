// What a player should learn next, and why.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "answers/filter.h"
#include "answers/sieve.h"
#include "collection/collection.h"
#include "instruments/instrument.h"
#include "repertoire/learning_load.h"
#include "repertoire/next_tune.h"
#include "tune/player.h"
#include "tune/record.h"

namespace answers {

struct NextQuestion {
    Filter filter;          // its asker is the player; of tunes, not of settings
    std::string player;     // by name
    bool is_short = false;  // for a bad week: fewest bars first
    bool any_ways = false;  // each note by whichever way is least work, in place of one way through a tune
    repertoire::LoadWeights weights;
};

// A tune to learn.
struct NextTune {
    tune::TuneRecord record;
    repertoire::Pick pick;
};

// The note that opens most, or several where no single one opens anything.
struct NextNote {
    music::NoteSet add;
    std::int64_t opens = 0;
    std::vector<std::string> examples;  // titles
};

// A tune that is not proposed because it is probably another one.
struct HeldBackTune {
    tune::TuneRecord record;
    tune::TuneRecord twin;
    std::optional<tune::TuneState> state;  // of the twin; nothing where it is proposed itself
};

// A tune the player wishes for that is not within the notes.
struct FarWish {
    tune::TuneRecord record;
    music::NoteSet missing;
};

struct NextAnswer {
    std::string player;
    std::shared_ptr<const instruments::Instrument> instrument;  // of the player; null where none is said
    music::NoteSet have;
    std::vector<std::string> last_rhythms;  // the latest first
    std::vector<tune::TuneRecord> at_work;  // tunes being learnt
    repertoire::NextGoal goal;
    // The one to learn, then others by their points; with `is_note_first` they need the note.
    std::vector<NextTune> picks;
    bool is_note_first = false;  // no tune is left within the notes
    std::optional<NextNote> note;
    std::vector<HeldBackTune> held_back;
    std::vector<FarWish> far_wishes;
    std::optional<std::string> no_such_rhythm;  // asked for, and no tune of the collection has it
    std::int64_t within = 0;                    // tunes within the notes that are in no state yet
    std::int64_t unwanted = 0;                  // left out because the player will not learn them
    std::int64_t left_out = 0;                  // by the filters
    std::int64_t scraps = 0;                    // left aside: new to the player, not wished for
    std::vector<Sieve> why;
};

// Throws Refused.
NextAnswer answer(const collection::Collection& collection, const NextQuestion& question);

}  // namespace answers
