// A tune bar by bar, with a line of buttons, fingers or holes under the notes.
#pragma once

#include "hands/cheapest_way.h"
#include "report/document.h"

namespace report {

// The bars, and below them those left out because they have the notes and ways of an earlier one: `5 as 1, 6 as 2`.
// `fifths` spells the notes.
void describe_hands_line(const hands::CheapestWay& way, const instruments::Instrument& instrument, int fifths,
                         Document& document);

}  // namespace report
