// Several players at once: `gamut together`.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "planner/together.h"
#include "report/document.h"

namespace report {

struct TogetherPage {
    std::vector<planner::Member> members;
    planner::Together found;
    std::int64_t tunes = 0;                      // that pass the filter and have a note
    std::map<tune::TuneId, std::string> titles;  // of the tunes named
};

// Tunes named for each note, and tunes listed that all can play. Source: house choice, what fits a page.
constexpr std::size_t kTitlesPerNote = 3;
constexpr std::size_t kTunesListed = 20;

Document describe(const TogetherPage& page);
Document tabulate(const TogetherPage& page);  // the notes, for a spreadsheet
std::string as_json(const TogetherPage& page);

}  // namespace report
