// The tables of a document for a spreadsheet: RFC 4180, lines end in CR LF, UTF-8.
#pragma once

#include <string>

#include "report/document.h"

namespace report {

// All tables in order; a cell over several rows stands in each of them, durations in seconds. Texts that a spreadsheet
// would take for a formula (they begin with = + - @) are led by an apostrophe.
std::string render_csv(const Document& document);

}  // namespace report
