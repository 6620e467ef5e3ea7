// The learning path as a musician reads it: `gamut path`.
#pragma once

#include <string>

#include "answers/path.h"
#include "report/document.h"

namespace report {

using PathPage = answers::PathAnswer;

Document describe(const PathPage& page);
Document tabulate(const PathPage& page);
std::string as_json(const PathPage& page);

}  // namespace report
