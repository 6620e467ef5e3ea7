// The order a person would try first: always the note that opens most at once for the time it takes.
#pragma once

#include <span>
#include <vector>

#include "planner/note_groups.h"
#include "planner/note_problem.h"

namespace planner {

// The group that meets the most weight for its time; among equals (at a stall: all) the one the most waiting weight
// needs for its time, then the lower. A lead; there must be demands.
int greedy_choice(std::span<const Demand> waiting, const NoteGroups& groups);

// One greedy choice after another: leads, every one of the demands once.
std::vector<int> greedy_order(std::span<const Demand> demands, const NoteGroups& groups);

}  // namespace planner
