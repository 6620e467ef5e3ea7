// Somebody's own order of notes held against the best one.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "planner/deadline.h"
#include "planner/goal.h"
#include "planner/plan.h"

namespace planner {

struct OwnStep {
    music::NoteSet add;
    std::int64_t opens = 0;
    std::int64_t open = 0;       // after this step
    std::int64_t time = 0;       // at which it is learnt
    std::int64_t best_open = 0;  // on the best path by the same time
    // What this step costs for good: the best path that begins so far, less the best that begins one step shorter.
    // Unknown where either is not proven. 0: up to here nothing more is lost.
    std::optional<std::int64_t> loses;
};

struct OwnOrder {
    std::vector<OwnStep> steps;  // the order as given
    Plan best;                   // with nothing of it asked for
    Plan completed;              // that begins with it and is the best after that
};

// `order` holds MIDI numbers, as in Goal::first, and takes its place. Throws as plan_path does.
OwnOrder weigh_own_order(std::span<const Wanted> wanted, const Goal& goal, const std::vector<int>& order,
                         const Deadline& deadline);

}  // namespace planner
