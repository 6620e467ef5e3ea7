// A drill on paper: `gamut drill`.
#pragma once

#include <string>

#include "answers/drill.h"
#include "report/document.h"

namespace report {

Document describe(const answers::DrillAnswer& page);
std::string as_json(const answers::DrillAnswer& page);

}  // namespace report
