// No set within a block is denser than the block, so when groups that take `t` in all are learnt, at least
// weight - weight / time x t still waits. Summed over the groups, each for its time, that is half of
// weight x time + weight / time x the sum of the squares of the times. C. Chekuri and R. Motwani, "Precedence
// constrained scheduling to minimize sum of weighted completion times on a single machine", Discrete Applied
// Mathematics 98 (1999) 29-38, use the same split for their factor 2. Tested by tests/unit/planner/blocks_test.cc.
#include "planner/bound.h"

namespace planner {

std::int64_t least_cost_of_block(const music::NoteSet& leads, std::int64_t weight, const NoteGroups& groups) noexcept {
    std::int64_t time = 0;
    std::int64_t squares = 0;
    for (const int lead : leads.midi_numbers()) {
        time += groups.time_of(lead);
        squares += groups.time_of(lead) * groups.time_of(lead);
    }
    return (weight * time + weight * squares / time + 1) / 2;
}

}  // namespace planner
