// The other question: not in which order, but which so many notes open most tunes.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include "planner/deadline.h"
#include "planner/goal.h"
#include "planner/plan.h"

namespace planner {

struct BestIn {
    music::NoteSet add;     // at most as many notes (or groups) as asked for; fewer where more would open nothing
    std::size_t steps = 0;  // so many notes or groups that is
    std::int64_t met = 0;   // weight of the tunes it opens
    std::int64_t upper_bound = 0;  // no such set opens more weight
    std::size_t states = 0;
    Plan path;  // to learn them in, as soon as can be: the other tunes are in its `never_open`

    Proof proof() const noexcept { return met == upper_bound ? Proof::optimal : Proof::gap; }
};

// What the goal begins with and what must open are in it. Throws GoalFault as plan_path does, and where these need more
// than `steps`.
BestIn best_in(std::span<const Wanted> wanted, const Goal& goal, std::size_t steps, const Deadline& deadline);

}  // namespace planner
