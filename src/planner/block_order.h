// The order of one block, by whichever exact method suits it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/block_problem.h"
#include "planner/blocks.h"
#include "planner/deadline.h"
#include "planner/goal.h"

namespace planner {

// `lower_bound` equals `cost` where the order is proven to be of least cost. Costs count from the start of the block.
struct BlockOrder {
    std::vector<int> leads;  // in learning order
    std::int64_t cost = 0;
    std::int64_t lower_bound = 0;
    std::size_t states = 0;  // sets of leads looked at
};

// `known` is there before the block begins. What is due must be so early that some order meets it, each entry later and
// larger than the one before, and the block must not be cut then.
BlockOrder order_block(const Block& block, const music::NoteSet& known, const NoteGroups& groups,
                       std::span<const Due> due, const Limits& limits, const Deadline& deadline);

}  // namespace planner
