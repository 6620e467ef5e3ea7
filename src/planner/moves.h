// Bettering an order a little at a time.
#pragma once

#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/block_problem.h"
#include "planner/note_problem.h"

namespace planner {

// Moves single units and runs of up to three for as long as that lowers the cost and all stays in time. `order` holds
// every unit once, in time.
std::vector<int> improve_by_moves(const BlockProblem& problem, std::vector<int> order);

// Swaps neighbours for as long as the cost stays the same, what is due stays in time, and the easier group comes first
// (see ease.h), `known` being there at the start. `order` holds every lead of the demands once.
std::vector<int> settle_ties(std::span<const Demand> demands, std::vector<int> order, const music::NoteSet& known,
                             const NoteGroups& groups, std::span<const Due> due);

}  // namespace planner
