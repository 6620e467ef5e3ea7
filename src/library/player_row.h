// A player without the tunes, as the library keeps one. Private to this room.
#pragma once

#include <optional>
#include <string>

#include "library/database.h"
#include "library/statement.h"
#include "tune/player.h"

namespace library {

// players_read.cc: of a row with the day in a column and the event in the next. Throws Failure for what is neither.
tune::DatedEvent event_in(const Database& database, const Statement& row, int day_column);

std::optional<tune::Player> read_player(const Database& database, const std::string& folded_name);

}  // namespace library
