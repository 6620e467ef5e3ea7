// `gamut evening`: a set list, with the clock beside it.
#pragma once

#include <string>

#include "answers/evening.h"
#include "report/document.h"

namespace report {

Document describe(const answers::EveningAnswer& page);
Document tabulate(const answers::EveningAnswer& page);
std::string as_json(const answers::EveningAnswer& page);  // the shape `evening` of schema/output.md, with a line end

}  // namespace report
