// The learning path as a musician reads it: `gamut path`.
#pragma once

#include <string>

#include "answers/path.h"
#include "report/document.h"

namespace report {

Document describe(const answers::PathAnswer& page);
Document tabulate(const answers::PathAnswer& page);
std::string as_json(const answers::PathAnswer& page);

}  // namespace report
