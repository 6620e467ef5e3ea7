// What a file of players means in this library: which tunes, and what comes to what is here already.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "repertoire/players_file.h"

namespace repertoire {

struct TunePlace {
    std::string file;                   // as shown; never empty
    std::optional<std::string> number;  // X:
};

// A tune of this library with all its settings.
struct TuneHere {
    tune::TuneId id;
    std::vector<std::string> titles;
    std::vector<TunePlace> places;
};

struct TuneMeant {
    tune::TuneId id;
    bool is_retitled = false;  // it has another title here: the person should hear of it

    friend bool operator==(const TuneMeant&, const TuneMeant&) = default;
};

// The tune here that a filed tune means, of those that have its id, its title, or its file and number (others do no
// harm). An id or a place says little by itself, as another library gives them to other tunes. The first that holds:
// the one tune of its title; of several, the one of its id that also stands at its file and number, else the one that
// stands there; where none has its title, the one of its id that stands there; where it has no title, the one without
// a title that stands there. Else nothing.
std::optional<TuneMeant> tune_meant(const FiledTune& filed, std::span<const TuneHere> here);

struct EventToAdd {
    tune::DatedEvent event;
    bool is_before = false;  // before all that is here of that day

    friend bool operator==(const EventToAdd&, const EventToAdd&) = default;
};

// What of the events of a file comes to what is here of the tune, in the order to add it. Of a day with events here,
// only what is not among them: states come before, so that what is here has the last word, and they are left out where
// even so the tune would come into another state. Days of which nothing is here are taken as they are. `filed` ascends
// by day.
std::vector<EventToAdd> events_to_add(const tune::PlayerTune& here, std::span<const tune::DatedEvent> filed);

}  // namespace repertoire
