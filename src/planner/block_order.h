// The order of one block, by whichever exact method suits it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "music/note_set.h"
#include "planner/blocks.h"
#include "planner/deadline.h"
#include "planner/goal.h"

namespace planner {

// `lower_bound` equals `cost` where the order is proven to be of least cost. Costs count from the start of the block.
struct BlockOrder {
    std::vector<int> notes;  // MIDI numbers in learning order
    std::int64_t cost = 0;
    std::int64_t lower_bound = 0;
    std::size_t states = 0;  // sets of notes looked at
};

// `block` must be one of cut_into_blocks; `known` is there before it begins.
BlockOrder order_block(const Block& block, const music::NoteSet& known, const Limits& limits, const Deadline& deadline);

}  // namespace planner
