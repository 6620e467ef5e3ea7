// The least-cost order of a block by looking only at the sets of units that could still lead to one.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/block_problem.h"
#include "planner/deadline.h"

namespace planner {

struct SearchOrder {
    std::vector<int> units;  // in learning order
    std::int64_t cost = 0;
    std::int64_t lower_bound = 0;  // equals cost when the search came to its end
    std::size_t states = 0;        // sets of units met

    bool is_proven() const noexcept { return lower_bound == cost; }
};

// `start` is any order of the units in time; the better it is, the less is looked at, and it is the answer when
// `max_states` or the deadline end the search. Among least-cost orders the one that order_by_table would give; `known`
// is there at the start.
SearchOrder order_by_search(const BlockProblem& problem, const music::NoteSet& known, std::span<const int> start,
                            std::size_t max_states, const Deadline& deadline);

}  // namespace planner
