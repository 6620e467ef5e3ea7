// The path is put together from blocks (blocks.h): each is ordered by itself and costs its own area plus its weight for
// the time before it. What is known of a block's least cost is known of the whole, so one unproven block leaves only
// its own gap. Tested by tests/unit/planner/order_notes_test.cc and instances_test.cc.
#include "planner/order_notes.h"

#include <algorithm>
#include <vector>

#include "base/invariant.h"
#include "planner/block_order.h"
#include "planner/blocks.h"
#include "planner/deadline.h"
#include "planner/greedy_order.h"
#include "planner/moves.h"
#include "planner/note_problem.h"
#include "planner/steps.h"

namespace planner {
namespace {

struct Path {
    std::vector<int> order;
    std::int64_t cost = 0;
    std::int64_t lower_bound = 0;
    std::size_t states = 0;
    std::size_t largest_block = 0;
};

// Learns the blocks of the demands after what the path has already.
void extend(Path& path, std::span<const Demand> demands, const Goal& goal, const Deadline& deadline) {
    music::NoteSet known = goal.have;
    for (const int note : path.order) known.add(note);
    for (const Block& block : cut_into_blocks(demands, known)) {
        const BlockOrder ordered = order_block(block, known, goal.limits, deadline);
        const std::int64_t before = block.weight * static_cast<std::int64_t>(path.order.size());
        path.order.insert(path.order.end(), ordered.notes.begin(), ordered.notes.end());
        path.cost += before + ordered.cost;
        path.lower_bound += before + ordered.lower_bound;
        path.states += ordered.states;
        path.largest_block = std::max(path.largest_block, ordered.notes.size());
        known = known | block.notes;
    }
}

// Tunes of weight 0 cost nothing wherever they come; they come last, as if they weighed 1 among themselves.
void extend_weightless(Path& path, std::span<const Demand> demands, const Goal& goal, const Deadline& deadline) {
    music::NoteSet learnt;
    for (const int note : path.order) learnt.add(note);
    std::vector<Demand> weightless = demands_after(demands, learnt);
    for (Demand& demand : weightless) demand.weight = demand.tunes;
    const Path costed = path;
    extend(path, weightless, goal, deadline);
    path.cost = costed.cost;
    path.lower_bound = costed.lower_bound;
}

}  // namespace

Plan plan_path(std::span<const Wanted> wanted, const Goal& goal) {
    const Deadline deadline(goal.limits.max_seconds);
    const std::vector<Demand> demands = gather_demands(wanted, goal.have);
    std::vector<Demand> weighty = demands;
    std::erase_if(weighty, [](const Demand& demand) { return demand.weight == 0; });

    Path path;
    extend(path, weighty, goal, deadline);
    extend_weightless(path, demands, goal, deadline);
    const std::vector<int> greedy = greedy_order(demands);
    const std::int64_t greedy_cost = cost_of(demands, greedy);
    if (greedy_cost < path.cost) {  // where a block is not proven
        path.order = greedy;
        path.cost = greedy_cost;
    }
    path.order = settle_ties(demands, std::move(path.order), goal.have);
    INVARIANT(cost_of(demands, path.order) == path.cost && path.lower_bound <= path.cost);

    Plan plan;
    plan.tunes = static_cast<std::int64_t>(wanted.size());
    for (const Wanted& tune : wanted)
        if (tune.needed.is_within(goal.have)) plan.ids_open_now.push_back(tune.id);
    std::sort(plan.ids_open_now.begin(), plan.ids_open_now.end());
    plan.open_now = static_cast<std::int64_t>(plan.ids_open_now.size());
    plan.steps = tell_steps(wanted, goal, path.order);
    plan.cost = static_cast<double>(path.cost);
    plan.lower_bound = static_cast<double>(path.lower_bound);
    plan.greedy_cost = static_cast<double>(greedy_cost);
    plan.proof = path.lower_bound == path.cost ? Proof::optimal : Proof::gap;
    plan.states = path.states;
    plan.largest_block = path.largest_block;
    plan.notes_to_learn = path.order.size();
    return plan;
}

}  // namespace planner
