// What a player does this week: one tune, one note, what comes back, something short.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/tune_handout.h"
#include "base/date.h"
#include "collection/collection.h"

namespace answers {

struct WeekTune {
    tune::TuneRecord record;
    std::optional<int> first_note;  // MIDI
};

struct WeekHandout {
    std::string player;
    base::Date from;
    std::shared_ptr<const instruments::Instrument> instrument;  // may be null
    std::optional<WeekTune> tune;                               // at work already, else the one to learn next
    bool is_at_work = false;
    std::optional<int> fresh;       // the note to learn next, where one opens anything; MIDI
    std::int64_t opens = 0;         // tunes, by it
    std::vector<WeekTune> again;    // two at most, the least certain first
    std::optional<WeekTune> brief;  // for a short day: the shortest the player has
};

// Tunes that come back on a week's card. Source: house choice; a card has five lines.
constexpr std::size_t kAgainInWeek = 2;

// Throws Refused.
WeekHandout week_handout(const collection::Collection& collection, const std::string& player, base::Date from);

}  // namespace answers
