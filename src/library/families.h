// Which settings are one tune, as the tables hold it. Private to this room.
#pragma once

#include "library/database.h"

namespace library {

// Works all of it out anew and writes what has changed, inside the caller's transaction. Its cost goes with the number
// of settings.
void settle_families(const Database& database);

}  // namespace library
