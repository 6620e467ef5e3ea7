// Rhythms and keys that a person said, as the tables hold them. Private to this room.
#pragma once

#include "collection/said_kinds.h"
#include "library/database.h"

namespace library {

// Its cost goes with what was said. Throws Failure where that is damaged.
collection::SaidKinds said_kinds_of(const Database& database);

}  // namespace library
