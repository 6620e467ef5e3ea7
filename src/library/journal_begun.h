// A library of an older gamut gets its journal. Private to this room.
#pragma once

#include <functional>

#include "library/database.h"
#include "library/migrations.h"

namespace library {

// Whether this is the step that makes the journal.
bool makes_journal(const Migration& step) noexcept;

// Reads what the library was told so far, lets `step` make the tables of the journal, and writes it into them, in the
// order in which it was said as far as that was kept: marks and verdicts, terms, then what players said. Then makes
// anew all that is worked out from it. Inside the caller's transaction. Throws Failure where what was kept cannot be
// read.
void begin_journal(const Database& database, const std::function<void()>& step);

}  // namespace library
