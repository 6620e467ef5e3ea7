// Players on a page: `gamut player`.
#pragma once

#include <string>
#include <vector>

#include "collection/player_record.h"
#include "report/document.h"
#include "tune/player.h"

namespace report {

struct PlayersTune {
    tune::PlayerTune said;
    std::string title;     // `(no title)` when it has none
    bool is_gone = false;  // no file has it any longer
};

struct PlayerPage {
    tune::Player player;
    std::string instrument;          // its title; empty when none was said, or one this program does not know
    music::NoteSet notes;            // at hand: those said and those of the tunes
    std::vector<PlayersTune> tunes;  // by title, then id
};

// Everything about one: notes, states, wishes.
Document describe(const PlayerPage& page);
Document tabulate(const PlayerPage& page);    // a row a tune
std::string as_json(const PlayerPage& page);  // the shape `player` of schema/output.md

struct PlayersPage {
    std::vector<PlayerPage> players;
    std::vector<collection::PlayerClass> classes;
};

// A row a player, and below them the classes; in the table players alone.
Document describe(const PlayersPage& page);
Document tabulate(const PlayersPage& page);
std::string as_json(const PlayersPage& page);

// The notes alone, and what they rest on.
Document describe_notes_of(const PlayerPage& page);

struct PlayersHappening {
    tune::TuneId tune;
    std::string title;
    tune::DatedEvent what;
};

struct PlayerHistory {
    std::string player;
    std::vector<PlayersHappening> happenings;  // the latest first
};

Document describe(const PlayerHistory& history);
Document tabulate(const PlayerHistory& history);
std::string as_json(const PlayerHistory& history);

}  // namespace report
