// Everything about one tune: `gamut tune`.
#pragma once

#include <string>

#include "answers/tune.h"
#include "report/document.h"

namespace report {

Document describe(const answers::TuneAnswer& page);
std::string as_json(const answers::TuneAnswer& page);

}  // namespace report
