// The learning path as a musician reads it: `gamut path`.
#pragma once

#include <string>
#include <vector>

#include "music/note_set.h"
#include "planner/plan.h"
#include "report/document.h"

namespace report {

struct PathPage {
    music::NoteSet have;
    planner::Plan plan;
    std::vector<std::vector<std::string>> examples;     // for each step, titles of tunes it opens; two are shown
    std::int64_t without_notes = 0;                     // tunes in which nothing sounds: no path leads to or from them
    double seconds = 0;                                 // spent planning
};

Document describe_path(const PathPage& page);
Document tabulate_path(const PathPage& page);
std::string path_json(const PathPage& page);

}  // namespace report
