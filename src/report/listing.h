// Listings of tunes: `gamut tunes`, and the rows other answers share.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "answers/sieve.h"
#include "music/note_set.h"
#include "report/document.h"
#include "tune/record.h"

namespace report {

// Where a phrase is found in a setting.
struct HeardAt {
    int errors = 0;           // notes that differ
    int bar = 0;              // where it begins, as a player counts; 0 in the pick-up
    std::string_view begins;  // `tune`, `part`, `within`: what begins there; static storage
    int semitones = 0;        // -5 to 6: how far the tune lies above what was asked for, octaves left out
};

struct Listing {
    std::vector<tune::TuneRecord> rows;
    std::optional<music::NoteSet> have;  // the notes asked about, when any were
    bool by_setting = false;             // one row a setting
    std::int64_t matched = 0;            // before a limit
    std::int64_t left_out = 0;
    std::int64_t gone = 0;  // whose file is no longer there
    std::vector<answers::Sieve> why;
    std::int64_t open_keys = 0;  // left out by --tonic or --mode alone, with what was asked among the candidates
    std::map<tune::SettingId, HeardAt> heard;  // of rows found by ear
};

Document describe(const Listing& listing);
// The same as a table of every column, for a spreadsheet.
Document tabulate(const Listing& listing);
// The shape `tunes` of schema/output.md, with a line end.
std::string as_json(const Listing& listing);

}  // namespace report
