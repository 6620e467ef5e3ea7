// The learning path as a musician reads it: `gamut path`.
#pragma once

#include <string>

#include "answers/path.h"
#include "report/document.h"

namespace report {

using PathPage = answers::PathAnswer;

Document describe_path(const PathPage& page);
Document tabulate_path(const PathPage& page);
std::string path_json(const PathPage& page);

}  // namespace report
