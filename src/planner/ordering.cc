// The order is put together from blocks (blocks.h): each is ordered by itself and costs its own area plus its weight
// for the time before it. What is known of a block's least cost is known of the whole, so one unproven block leaves
// only its own gap. Where something is due, blocks no longer come one after another in some least-cost order:
// everything is one block then. Tested by tests/unit/planner/order_notes_test.cc and instances_test.cc.
#include "planner/ordering.h"

#include <algorithm>

#include "planner/block_order.h"
#include "planner/blocks.h"
#include "planner/greedy_order.h"
#include "planner/moves.h"

namespace planner {
namespace {

music::NoteSet set_of(std::span<const int> leads) {
    music::NoteSet set;
    for (const int lead : leads) set.add(lead);
    return set;
}

struct Terms {
    const music::NoteSet& known;
    const NoteGroups& groups;
    std::span<const Due> due;
    const Limits& limits;
    const Deadline& deadline;
};

// Learns the demands after what is ordered already.
void extend(Ordering& ordering, std::span<const Demand> demands, std::span<const Due> due, const Terms& terms) {
    if (demands.empty()) return;
    music::NoteSet known = terms.known | set_of(ordering.leads);
    std::int64_t time = terms.groups.time_of(set_of(ordering.leads));
    const std::vector<Block> blocks = due.empty() ? cut_into_blocks(demands, known, terms.groups)
                                                  : std::vector<Block>{uncut_block(demands, known, terms.groups)};
    for (const Block& block : blocks) {
        const BlockOrder ordered = order_block(block, known, terms.groups, due, terms.limits, terms.deadline);
        ordering.leads.insert(ordering.leads.end(), ordered.leads.begin(), ordered.leads.end());
        ordering.cost += block.weight * time + ordered.cost;
        ordering.lower_bound += block.weight * time + ordered.lower_bound;
        ordering.states += ordered.states;
        ordering.largest_block = std::max(ordering.largest_block, ordered.leads.size());
        known = known | block.leads;
        time += block.time;
    }
}

// Tunes of weight 0 cost nothing wherever they come; they come last, as if they weighed 1 among themselves.
void extend_weightless(Ordering& ordering, std::span<const Demand> demands, const Terms& terms) {
    std::vector<Demand> weightless = demands_after(demands, set_of(ordering.leads));
    for (Demand& demand : weightless) demand.weight = demand.tunes;
    const Ordering costed = ordering;
    extend(ordering, weightless, {}, terms);
    ordering.cost = costed.cost;
    ordering.lower_bound = costed.lower_bound;
}

}  // namespace

std::optional<std::vector<Due>> due_after(std::span<const Due> due, const music::NoteSet& learnt) {
    std::vector<Due> rest;
    for (const Due& one : due) {
        const Due left{one.leads.without(learnt), one.steps - learnt.size()};
        if (left.leads.empty()) continue;
        if (left.leads.size() > left.steps) return std::nullopt;
        rest.push_back(left);
    }
    return rest;
}

std::optional<Ordering> order_demands(std::span<const Demand> demands, const music::NoteSet& known,
                                      const NoteGroups& groups, std::span<const Due> due, const Limits& limits,
                                      const Deadline& deadline) {
    if (!due_after(due, {})) return std::nullopt;
    const Terms terms{known, groups, due, limits, deadline};
    std::vector<Demand> weighty(demands.begin(), demands.end());
    std::erase_if(weighty, [](const Demand& demand) { return demand.weight == 0; });

    Ordering ordering;
    extend(ordering, weighty, due, terms);
    extend_weightless(ordering, demands, terms);
    if (due.empty() && !ordering.is_proven()) {
        std::vector<int> greedy = greedy_order(demands, groups);
        const std::int64_t greedy_cost = cost_of(demands, greedy, groups);
        if (greedy_cost < ordering.cost) {
            ordering.leads = std::move(greedy);
            ordering.cost = greedy_cost;
        }
    }
    ordering.leads = settle_ties(demands, std::move(ordering.leads), known, groups, due);
    return ordering;
}

}  // namespace planner
