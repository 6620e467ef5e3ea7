// Whether a tune is too hard for a player: `gamut tune --for`.
#pragma once

#include <string>

#include "answers/too_hard.h"
#include "report/document.h"

namespace report {

Document describe(const answers::TooHardAnswer& page);
std::string as_json(const answers::TooHardAnswer& page);

}  // namespace report
