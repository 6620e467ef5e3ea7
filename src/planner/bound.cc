// Sum over the notes of the weight waiting before each: at least weight - density x notes learnt so far, which sums to
// weight x (n + 1) / 2 for n notes. C. Chekuri and R. Motwani, "Precedence constrained scheduling to minimize sum of
// weighted completion times on a single machine", Discrete Applied Mathematics 98 (1999) 29-38, use the same split for
// their factor 2.
#include "planner/bound.h"

namespace planner {

std::int64_t least_cost_of(const Block& block) noexcept {
    const std::int64_t notes = block.notes.size();
    return (block.weight * (notes + 1) + 1) / 2;
}

std::int64_t least_cost_of(std::span<const Block> blocks) noexcept {
    std::int64_t cost = 0;
    std::int64_t time = 0;
    for (const Block& block : blocks) {
        cost += block.weight * time + least_cost_of(block);
        time += block.notes.size();
    }
    return cost;
}

}  // namespace planner
