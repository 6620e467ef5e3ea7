// Keys as the tables hold them. Private to this room.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "music/key.h"

namespace library {

std::optional<music::Key> key_stored(std::string_view text);  // `A dorian`; empty where there is none
std::vector<music::Key> keys_stored(std::string_view text);   // `A dorian,A minor`

}  // namespace library
