// What no order can beat, without any search.
#pragma once

#include <cstdint>
#include <span>

#include "planner/blocks.h"

namespace planner {

// Of one block as cut_into_blocks makes them, learnt from time 0: no order of its notes costs less. No set within a
// block is denser than the block, so the cost is at least half of weight x (notes + 1); rounded up, for costs are
// whole.
std::int64_t least_cost_of(const Block& block) noexcept;

// Of the whole order: twice this is never exceeded by an order that keeps to the blocks.
std::int64_t least_cost_of(std::span<const Block> blocks) noexcept;

}  // namespace planner
