// What a player takes home of one tune.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "answers/notes_asked.h"
#include "answers/tune_blocks.h"
#include "collection/collection.h"
#include "instruments/instrument.h"
#include "music/note_set.h"
#include "tune/facts.h"
#include "tune/record.h"

namespace answers {

// For whom. What is not said comes from the player, where one is.
struct HandoutReader {
    std::shared_ptr<const instruments::Instrument> instrument;  // may be null
    std::optional<std::string> player;                          // by name
    std::optional<std::string> have;                            // NOTES
    std::optional<std::string> fresh;                           // NOTES
};

struct TuneHandout {
    tune::TuneRecord record;
    tune::TuneFacts facts;                                      // of the setting shown, with the key a person said
    std::string player;                                         // as shown; empty where nobody is named
    std::shared_ptr<const instruments::Instrument> instrument;  // may be null
    std::optional<music::NoteSet> have;                         // nothing where nobody said what is at hand
    music::NoteSet fresh;                                       // of the tune's notes those that are new
    music::NoteSet lacking;                                     // of the tune's notes those the instrument has not
    int fifths = 0;                                             // that spell its notes
    int taps = 0;                                               // of the foot in a whole bar; 0: freely
    bool is_rhythm_sure = true;                                 // the file or a person says it
    TuneBlocks blocks;
    std::optional<int> hardest_bar;  // by number, on the instrument
    std::vector<LeftOutNotes> left_out_notes;
};

// `which`: an id or a title. Throws Refused, also for a tune without music.
TuneHandout tune_handout(const collection::Collection& collection, const std::string& which,
                         const HandoutReader& reader);

// Of a kind of tune in a meter, `6/8`; by common practice two in a reel and a jig, three in a waltz. 0 where there is
// no meter. Source: repertoire/pace.h, and for kinds without a pace the beats of the meter.
int taps_in_bar(const std::string& rhythm, const std::string& meter);

}  // namespace answers
