// The name of somebody who is to become a player.
#pragma once

#include <string>

#include "collection/collection.h"
#include "tune/player.h"

namespace cli {

// Throws Misuse for what is no name, and for one that behind @ would mean an instrument.
tune::PlayerName new_player_name(const std::string& written);
void refuse_name_of_instrument(const tune::PlayerName& name);  // the second half of that

void refuse_name_of_class(const collection::Collection& library, const tune::PlayerName& name);

}  // namespace cli
