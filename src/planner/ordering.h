// The order in which everything that is still missing is learnt, with what is known of how good it is.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/block_problem.h"
#include "planner/deadline.h"
#include "planner/goal.h"
#include "planner/note_groups.h"
#include "planner/note_problem.h"

namespace planner {

// Costs count from the state the ordering starts in.
struct Ordering {
    std::vector<int> leads;  // every lead of the demands once, in learning order
    std::int64_t cost = 0;
    std::int64_t lower_bound = 0;   // no order costs less
    std::size_t states = 0;         // sets of leads looked at
    std::size_t largest_block = 0;  // groups that had to be ordered together

    bool is_proven() const noexcept { return lower_bound == cost; }
};

// `known` is there before. What is due counts its steps from here, each entry later and larger than the one before.
// Empty when no order is in time. Demands of weight 0 come last.
std::optional<Ordering> order_demands(std::span<const Demand> demands, const music::NoteSet& known,
                                      const NoteGroups& groups, std::span<const Due> due, const Limits& limits,
                                      const Deadline& deadline);

// What is due once `learnt` has been learnt in so many steps. Empty when some of it comes too late.
std::optional<std::vector<Due>> due_after(std::span<const Due> due, const music::NoteSet& learnt);

}  // namespace planner
