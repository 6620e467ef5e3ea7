// A player as a collection knows one.
#pragma once

#include <vector>

#include "tune/player.h"

namespace collection {

// All that is kept of one player.
struct PlayerRecord {
    tune::Player player;
    // Ascending by tune: the tune (family) they belong to now. What was said of several settings that have become one
    // tune is put together.
    std::vector<tune::PlayerTune> tunes;

    friend bool operator==(const PlayerRecord&, const PlayerRecord&) = default;
};

// Players under one name.
struct PlayerClass {
    tune::PlayerName name;
    std::vector<std::string> players;  // as shown, ascending by their folded names; never empty

    friend bool operator==(const PlayerClass&, const PlayerClass&) = default;
};

// Something that happened to a tune of a player.
struct PlayerHappening {
    tune::TuneId tune;  // (family) it belongs to now
    tune::DatedEvent what;

    friend bool operator==(const PlayerHappening&, const PlayerHappening&) = default;
};

}  // namespace collection
