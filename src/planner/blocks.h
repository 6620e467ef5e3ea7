// Cutting the order into blocks: some least-cost order learns the blocks one after another, so each is ordered by
// itself. That holds where nothing but the cost is asked of the order.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/note_problem.h"

namespace planner {

// What is learnt in one run, and what is waiting for nothing else once the earlier blocks are known.
struct Block {
    music::NoteSet leads;         // of the groups of notes (note_groups.h)
    std::vector<Demand> demands;  // missing sets within `leads`, in the order of comes_before
    std::int64_t weight = 0;      // of the demands
    std::int64_t time = 0;        // to learn all of it
    std::int64_t least_cost = 0;  // from the start of the block no order of it costs less (a bound, seldom reached)
};

// Blocks of greatest density (weight met per time), each as small as it can be, densest first; every lead of the
// demands is in one block. Among equals the easier block comes first (see ease.h), `known` being there at the start.
// Weights must be positive.
std::vector<Block> cut_into_blocks(std::span<const Demand> demands, const music::NoteSet& known,
                                   const NoteGroups& groups);

// All in one block, for goals under which blocks may not be ordered by themselves.
Block uncut_block(std::span<const Demand> demands, const music::NoteSet& known, const NoteGroups& groups);

}  // namespace planner
