// Keys as the tables hold them. Private to this room.
#pragma once

#include <string_view>
#include <vector>

#include "music/key.h"

namespace library {

std::vector<music::Key> keys_stored(std::string_view text);  // `A dorian,A minor`

}  // namespace library
