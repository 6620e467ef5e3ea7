// What no order can beat, without any search.
#pragma once

#include <cstdint>

#include "music/note_set.h"
#include "planner/note_groups.h"

namespace planner {

// Of a block as cut_into_blocks makes them, of `weight` and these leads, learnt from time 0: no order of it costs less.
// Rounded up, for costs are whole. No order that keeps to the blocks costs more than twice the sum of these and of what
// each block waits for those before it.
std::int64_t least_cost_of_block(const music::NoteSet& leads, std::int64_t weight, const NoteGroups& groups) noexcept;

}  // namespace planner
