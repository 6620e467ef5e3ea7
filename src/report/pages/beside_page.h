// Two settings bar beside bar: `gamut tune A --beside B`.
#pragma once

#include <string>

#include "answers/beside.h"
#include "report/document.h"

namespace report {

Document describe(const answers::BesideAnswer& page);
// The shape `beside` of schema/output.md, with a line end.
std::string as_json(const answers::BesideAnswer& page);

}  // namespace report
