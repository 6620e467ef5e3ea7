// How a tune is built, in words and as JSON, the same in every report. Inside this room only.
#pragma once

#include "report/document.h"
#include "report/words/json.h"
#include "tune/facts.h"

namespace report {

// Lines of the parts and their phrases, the bars that come again, the moves and the notes struck once. `fifths` spells
// notes.
void add_structure(const tune::TuneFacts& facts, int fifths, Particulars& lines);

// Adds `structure`, `leaps` and `lone_notes` of schema/output.md to a row.
void add_structure(const tune::TuneFacts& facts, int fifths, Json& row);

}  // namespace report
