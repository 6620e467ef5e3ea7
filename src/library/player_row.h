// A player without the tunes, as the library keeps one. Private to this room.
#pragma once

#include <optional>
#include <string>

#include "library/database.h"
#include "tune/player.h"

namespace library {

// players_read.cc
std::optional<tune::Player> read_player(const Database& database, const std::string& folded_name);

}  // namespace library
