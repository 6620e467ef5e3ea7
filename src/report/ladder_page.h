// `gamut next --towards`: a short ladder of tunes to one that is too much at once.
#pragma once

#include <string>

#include "answers/ladder.h"
#include "report/document.h"

namespace report {

using LadderPage = answers::LadderAnswer;

Document describe(const LadderPage& page);
Document tabulate(const LadderPage& page);    // a row a rung
std::string as_json(const LadderPage& page);  // the shape `ladder` of schema/output.md, with a line end

}  // namespace report
