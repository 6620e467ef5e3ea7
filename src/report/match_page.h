// `gamut tunes --match`: titles from somewhere else, and what the library has of them.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "music/note_set.h"
#include "report/document.h"
#include "report/listing.h"
#include "tune/record.h"
#include "tune/title_match.h"

namespace report {

struct MatchedLine {
    std::uint32_t line = 1;  // in the list
    tune::TitleMatch match;
    std::optional<tune::TuneRecord> tune;  // when matched
    bool is_left_out = false;              // the tune does not pass the other filters
};

struct MatchPage {
    std::string file;                    // as shown; `-` for standard input
    std::vector<MatchedLine> lines;      // as listed
    std::optional<music::NoteSet> have;  // the notes asked about, when any were
    std::vector<answers::Sieve> why;     // filters that were given, and how many tunes of the library fail each
};

// Lines whose title is not surely that of a tune.
std::int64_t unsettled(const MatchPage& page);

// Matched lines with notes asked about: those that fit first, then by how many notes are missing. Else as listed.
Document describe(const MatchPage& page);
Document tabulate(const MatchPage& page);    // as listed, a row for each candidate
std::string as_json(const MatchPage& page);  // the shape `match` of schema/output.md, with a line end

}  // namespace report
