// In which order to learn notes: the question, and all an answer tells of the way.
#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "answers/reach.h"
#include "collection/collection.h"
#include "music/note_set.h"
#include "planner/best_in.h"
#include "planner/goal.h"
#include "planner/own_order.h"
#include "planner/plan.h"

namespace answers {

// What a tune counts: one; as often as a person said; by its tags.
enum class WeightBy : std::uint8_t { equal, count, tag };

// How long a note takes to learn: all the same, or as hard as it is on the instrument.
enum class Effort : std::uint8_t { equal, instrument };

constexpr std::int64_t kMostTagWeight = 1'000'000;  // Source: house choice

struct PathQuestion {
    struct Group {
        std::string notes;                 // NOTES
        std::optional<std::int64_t> time;  // 1 to planner::kLongestTime
    };
    struct Must {
        std::string tune;                  // an id, a title or a part of one
        std::optional<std::int64_t> step;  // from 1
    };
    struct Time {
        music::NoteSet notes;
        std::int64_t time = 1;  // 1 to planner::kLongestTime
    };

    Filter filter;
    std::optional<std::string> have;  // NOTES; else what the players have
    bool by_name = false;             // a step is a note name in all octaves; not with groups
    bool is_brief = false;            // without the reasons, which take most of the time
    std::size_t steps = 0;            // so many are told; 0: all
    // One of two other questions, not both.
    std::optional<std::size_t> best_in;  // which so many notes open most tunes; from 1
    std::optional<std::string> order;    // NOTES: one's own, held against the best; not with `first`
    // What the path keeps to, in NOTES.
    std::optional<std::string> first, avoid;
    std::vector<std::pair<std::string, std::string>> before;
    std::vector<Group> groups;
    std::vector<Must> must;
    WeightBy weight_by = WeightBy::equal;
    std::map<std::string, std::int64_t> tag_weights;  // by tune::fold_tag; 0 to kMostTagWeight
    Effort effort = Effort::equal;                    // instrument: one is in the hands
    std::vector<Time> times;                          // the later ones count
    planner::Limits limits;
};

// What the collection knows of the tunes a step opens. Unknown rhythms and keys are counted under the empty word.
struct StepOpens {
    std::vector<std::string> examples;  // titles, of some
    std::map<std::string, std::int64_t> by_rhythm;
    std::map<std::string, std::int64_t> by_key;
    std::string pays_off_in;  // title of the first tune that a step which opens nothing helps to open
};

struct PathAnswer {
    music::NoteSet have;
    planner::Plan plan;
    std::vector<StepOpens> opens;    // for each step
    std::int64_t without_notes = 0;  // tunes in which nothing sounds: no path leads to or from them
    std::int64_t out_of_reach = 0;   // tunes left out for a note that is not where `reach` says
    Reach reach;
    // Closed tunes that have a setting of other notes beside the one the path goes by.
    std::int64_t with_other_notes = 0;
    std::int64_t tunes = 0;          // planned for
    std::int64_t without_count = 0;  // of these, by weight_by: nobody said how often they are played; they weigh 1
    bool is_brief = false;
    bool by_name = false;
    bool has_wishes = false;  // a beginning, a must, an order of two notes
    bool has_groups = false;
    bool has_unequal_times = false;
    WeightBy weight_by = WeightBy::equal;
    std::optional<double> free_cost;  // of the best path without the wishes
    std::optional<planner::OwnOrder> own_order;
    double max_seconds = 0;  // that the proof was allowed to take
    std::optional<planner::BestIn> best_in;
    std::int64_t best_in_steps = 0;  // asked about
    std::vector<LeftOutNotes> left_out;
};

// Throws Refused.
PathAnswer answer(const collection::Collection& collection, const PathQuestion& question);

}  // namespace answers
