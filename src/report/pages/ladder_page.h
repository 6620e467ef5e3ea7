// `gamut next --towards`: a short ladder of tunes to one that is too much at once.
#pragma once

#include <string>

#include "answers/ladder.h"
#include "report/document.h"

namespace report {

Document describe(const answers::LadderAnswer& page);
Document tabulate(const answers::LadderAnswer& page);    // a row a rung
std::string as_json(const answers::LadderAnswer& page);  // the shape `ladder` of schema/output.md, with a line end

}  // namespace report
