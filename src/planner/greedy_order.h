// The order a person would try first: always the note that opens most at once.
#pragma once

#include <span>
#include <vector>

#include "planner/note_problem.h"

namespace planner {

// The note that meets the most weight; among equals (at a stall: all notes) the one the most waiting weight needs, then
// the lower. MIDI numbers; every note of the demands, each once.
std::vector<int> greedy_order(std::span<const Demand> demands);

}  // namespace planner
