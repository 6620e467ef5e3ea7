// The learning path as a musician reads it: `gamut path`.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "music/note_set.h"
#include "planner/best_in.h"
#include "planner/own_order.h"
#include "planner/plan.h"
#include "report/document.h"

namespace report {

// What the library knows of the tunes a step opens. Unknown rhythms and keys are counted under the empty word.
struct StepWords {
    std::vector<std::string> examples;  // titles; two are shown
    std::map<std::string, std::int64_t> by_rhythm;
    std::map<std::string, std::int64_t> by_key;
    std::string pays_off_in;  // title of the first tune that a step which opens nothing helps to open
};

struct PathPage {
    music::NoteSet have;
    planner::Plan plan;
    std::vector<StepWords> words;    // for each step
    std::int64_t without_notes = 0;  // tunes in which nothing sounds: no path leads to or from them
    std::int64_t out_of_reach = 0;   // tunes left out for a note that is not where `reach` says
    std::string reach;               // `on the player's instrument`
    std::int64_t with_other_notes =
        0;                    // closed tunes that have a setting of other notes beside the one the path goes by
    double seconds = 0;       // spent planning
    bool is_brief = false;    // without the reasons
    bool by_name = false;     // a step is a note name
    bool has_wishes = false;  // a beginning, a must, an order of two notes
    bool has_groups = false;
    bool has_unequal_times = false;   // notes take different times to learn
    std::string weight_by = "equal";  // or count, tag
    std::optional<double> free_cost;  // of the best path without the wishes
    std::optional<planner::OwnOrder> own_order;
    std::optional<planner::BestIn> best_in;
    std::int64_t best_in_steps = 0;  // asked about
};

Document describe_path(const PathPage& page);
Document tabulate_path(const PathPage& page);
std::string path_json(const PathPage& page);

}  // namespace report
