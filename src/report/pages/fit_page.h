// How much of a collection each instrument can play: `gamut instrument fit`.
#pragma once

#include <string>

#include "answers/fit.h"
#include "report/document.h"

namespace report {

Document describe(const answers::FitAnswer& page);
Document tabulate(const answers::FitAnswer& page);
std::string as_json(const answers::FitAnswer& page);

}  // namespace report
