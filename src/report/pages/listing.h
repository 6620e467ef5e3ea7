// Listings of tunes: `gamut tunes`, and the rows other answers share.
#pragma once

#include <string>

#include "answers/tunes.h"
#include "report/document.h"

namespace report {

Document describe(const answers::TunesAnswer& listing);
// The same as a table of every column, for a spreadsheet.
Document tabulate(const answers::TunesAnswer& listing);
// The shape `tunes` of schema/output.md, with a line end.
std::string as_json(const answers::TunesAnswer& listing);

}  // namespace report
