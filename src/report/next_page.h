// `gamut next`: what to learn next, and why.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "instruments/instrument.h"
#include "repertoire/next_tune.h"
#include "report/document.h"
#include "report/listing.h"
#include "tune/player.h"
#include "tune/record.h"

namespace report {

struct NextTune {
    tune::TuneRecord record;
    repertoire::Pick pick;
};

// The note that opens most, or several where no single one opens anything.
struct NextNote {
    music::NoteSet add;
    std::int64_t opens = 0;
    std::vector<std::string> examples;
};

// Steps of more notes are not proposed in one go. Source: common practice, no source: notes often come in twos.
constexpr int kMostNotesAtOnce = 2;

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

struct NextPage {
    std::string player;
    const instruments::Instrument* instrument = nullptr;  // may be null; must outlive this
    music::NoteSet have;
    std::vector<std::string> last_rhythms;  // the latest first
    std::vector<tune::TuneRecord> at_work;  // tunes being learnt
    repertoire::NextGoal goal;
    std::vector<NextTune>
        picks;  // the one to learn, then others by their points; with `is_note_first` they need the note
    bool is_note_first = false;  // no tune is left within the notes
    std::optional<NextNote> note;
    std::vector<HeldBackTune> held_back;
    std::vector<FarWish> far_wishes;
    std::optional<std::string> no_such_rhythm;  // asked for, and no tune of the library has it
    std::int64_t within = 0;                    // tunes within the notes that are in no state yet
    std::int64_t unwanted = 0;                  // left out because the player will not learn them
    std::int64_t left_out = 0;                  // by the filters
    std::int64_t scraps = 0;                    // left aside: new to the player, not wished for
    std::vector<Sieve> why;
};

Document describe_next(const NextPage& page);
Document tabulate_next(const NextPage& page);  // a row a tune
std::string next_json(const NextPage& page);   // the shape `next` of schema/output.md, with a line end

}  // namespace report
