// Small blocks go to the table, which is quicker than setting up a search. Else a search of few states is tried first:
// blocks of printed collections end within a few hundred. A block that does not end there is dense, and the table costs
// less than the search if there is memory for it; if not, the search goes on for as long as the limits allow. Tested by
// tests/unit/planner/block_order_test.cc.
#include "planner/block_order.h"

#include <algorithm>
#include <new>
#include <optional>

#include "planner/bounded_search.h"
#include "planner/greedy_order.h"
#include "planner/moves.h"
#include "planner/table_order.h"

namespace planner {
namespace {

// Source: house choice, measured: up to here the table takes half a millisecond.
constexpr std::size_t kTableAtOnce = 16;

// States of the first search where a table may follow: at most about a quarter of the table's time. Source: house
// choice, measured: a state takes as long as a few hundred entries of the table, and small blocks do not end so soon.
std::size_t first_search_states(std::size_t units) noexcept {
    const std::uint64_t entries = std::uint64_t{1} << std::min<std::size_t>(units, 40);
    return static_cast<std::size_t>(std::max(std::min(entries >> 8, std::uint64_t{1} << 13), entries >> 11));
}

std::optional<TableOrder> try_table(const BlockProblem& problem, const music::NoteSet& known, const Limits& limits,
                                    const Deadline& deadline) {
    if (table_bytes(problem) > limits.max_table_bytes) return std::nullopt;
    try {
        return order_by_table(problem, known, deadline);
    } catch (const std::bad_alloc&) {
        return std::nullopt;  // less memory than the limits promised: the search goes on instead
    }
}

// Greedy within what is due first, then within what is due next, and in the end within all.
std::vector<int> greedy_in_time(const Block& block, const NoteGroups& groups, std::span<const Due> due) {
    std::vector<int> order;
    music::NoteSet learnt;
    const auto learn = [&](const music::NoteSet& leads) {
        for (const int lead : greedy_order(demands_within(demands_after(block.demands, learnt), leads), groups)) {
            order.push_back(lead);
            learnt.add(lead);
        }
    };
    for (const Due& one : due) learn(one.leads);
    learn(block.leads);
    return order;
}

// An order of leads as one of units: a unit where its first lead is. Of two leads that occur in the same demands none
// is due before the other.
std::vector<int> as_units(std::span<const int> leads, const BlockProblem& problem) {
    std::vector<int> units;
    for (const int lead : leads)
        for (std::size_t unit = 0; unit < problem.units.size(); ++unit)
            if (problem.units[unit].leads.has(lead) &&
                std::count(units.begin(), units.end(), static_cast<int>(unit)) == 0)
                units.push_back(static_cast<int>(unit));
    return units;
}

BlockOrder order_units(const Block& block, const BlockProblem& problem, std::span<const int> greedy,
                       const music::NoteSet& known, const Limits& limits, const Deadline& deadline) {
    std::size_t states = 0;
    const auto from_table = [&]() -> std::optional<BlockOrder> {
        const std::optional<TableOrder> table = try_table(problem, known, limits, deadline);
        if (!table) return std::nullopt;
        return BlockOrder{spell_out(problem, table->units), table->cost, table->cost, states + table->states};
    };
    const auto search = [&](std::span<const int> start, std::size_t max_states) {
        SearchOrder found = order_by_search(problem, known, start, max_states, deadline);
        states += found.states;
        return found;
    };

    if (problem.units.size() <= kTableAtOnce)
        if (const std::optional<BlockOrder> answer = from_table()) return *answer;
    const std::vector<int> start = improve_by_moves(problem, as_units(greedy, problem));
    const bool has_table = table_bytes(problem) <= limits.max_table_bytes;
    const std::size_t first_states = has_table ? first_search_states(problem.units.size()) : limits.max_states;
    SearchOrder found = search(start, std::min(limits.max_states, first_states));
    if (!found.is_proven() && has_table) {
        if (const std::optional<BlockOrder> answer = from_table()) return *answer;
        if (first_states < limits.max_states && !deadline.has_passed()) found = search(start, limits.max_states);
    }
    return {spell_out(problem, found.units), found.cost, std::max(found.lower_bound, block.least_cost), states};
}

}  // namespace

BlockOrder order_block(const Block& block, const music::NoteSet& known, const NoteGroups& groups,
                       std::span<const Due> due, const Limits& limits, const Deadline& deadline) {
    if (block.leads.size() == 1)
        return {block.leads.midi_numbers(), block.weight * block.time, block.weight * block.time, 1};
    const std::vector<int> greedy = greedy_in_time(block, groups, due);
    if (const std::optional<BlockProblem> problem = number_units(block.demands, groups, due))
        return order_units(block, *problem, greedy, known, limits, deadline);
    return {greedy, cost_of(block.demands, greedy, groups), block.least_cost, 0};
}

}  // namespace planner
