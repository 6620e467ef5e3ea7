// `gamut tunes --match`: titles from somewhere else, and what the library has of them.
#pragma once

#include <string>

#include "answers/match.h"
#include "report/document.h"

namespace report {

// Matched lines with notes asked about: those that fit first, then by how many notes are missing. Else as listed.
Document describe(const answers::MatchAnswer& page);
Document tabulate(const answers::MatchAnswer& page);    // as listed, a row for each candidate
std::string as_json(const answers::MatchAnswer& page);  // the shape `match` of schema/output.md, with a line end

}  // namespace report
