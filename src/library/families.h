// Which settings are one tune, as the tables hold it. Private to this room.
#pragma once

#include <vector>

#include "collection/collection.h"
#include "library/database.h"

namespace library {

// All that a person said of two tunes, in the order it was said: verdicts.cc. Throws Failure where that is damaged.
std::vector<collection::Verdict> verdicts_of(const Database& database);

// Works all of it out anew and writes what has changed, inside the caller's transaction. Its cost goes with the number
// of settings.
void settle_families(const Database& database);

}  // namespace library
