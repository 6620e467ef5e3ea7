// Cutting the order into blocks: some least-cost order learns the blocks one after another, so each is ordered by
// itself.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/note_problem.h"

namespace planner {

// Notes that are learnt together, and what is waiting for nothing else once the earlier blocks are known.
struct Block {
    music::NoteSet notes;
    std::vector<Demand> demands;  // missing sets within `notes`, in the order of comes_before
    std::int64_t weight = 0;      // of the demands
};

// Blocks of greatest density (weight met per note learnt), each as small as it can be, densest first; every note of the
// demands is in one block. Among equals the easier block comes first (see ease.h), `known` being there at the start.
// Weights must be positive.
std::vector<Block> cut_into_blocks(std::span<const Demand> demands, const music::NoteSet& known);

}  // namespace planner
