// Small blocks go to the table, which is quicker than setting up a search. Else a search of few states is tried first:
// blocks of printed collections end within a few hundred. A block that does not end there is dense, and the table costs
// less than the search if there is memory for it; if not, the search goes on for as long as the limits allow. Tested by
// tests/unit/planner/block_order_test.cc.
#include "planner/block_order.h"

#include <algorithm>
#include <new>
#include <optional>

#include "planner/block_problem.h"
#include "planner/bound.h"
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
    const std::size_t entries = std::size_t{1} << std::min<std::size_t>(units, 40);
    return std::max(std::min(entries >> 8, std::size_t{1} << 13), entries >> 11);
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

// The greedy order of the notes as one of units: a unit where its first note is.
std::vector<int> greedy_units(const Block& block, const BlockProblem& problem) {
    std::vector<int> units;
    for (const int note : greedy_order(block.demands))
        for (std::size_t unit = 0; unit < problem.units.size(); ++unit)
            if (problem.units[unit].notes.has(note) &&
                std::count(units.begin(), units.end(), static_cast<int>(unit)) == 0)
                units.push_back(static_cast<int>(unit));
    return units;
}

BlockOrder order_units(const Block& block, const BlockProblem& problem, const music::NoteSet& known,
                       const Limits& limits, const Deadline& deadline) {
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
    const std::vector<int> start = improve_by_moves(problem, greedy_units(block, problem));
    const bool has_table = table_bytes(problem) <= limits.max_table_bytes;
    const std::size_t first_states = has_table ? first_search_states(problem.units.size()) : limits.max_states;
    SearchOrder found = search(start, std::min(limits.max_states, first_states));
    if (!found.is_proven() && has_table) {
        if (const std::optional<BlockOrder> answer = from_table()) return *answer;
        if (first_states < limits.max_states && !deadline.has_passed()) found = search(start, limits.max_states);
    }
    return {spell_out(problem, found.units), found.cost, std::max(found.lower_bound, least_cost_of(block)), states};
}

}  // namespace

BlockOrder order_block(const Block& block, const music::NoteSet& known, const Limits& limits,
                       const Deadline& deadline) {
    if (block.notes.size() == 1) return {block.notes.midi_numbers(), block.weight, block.weight, 1};
    if (const std::optional<BlockProblem> problem = number_units(block.demands))
        return order_units(block, *problem, known, limits, deadline);
    const std::vector<int> order = greedy_order(block.demands);
    return {order, cost_of(block.demands, order), least_cost_of(block), 0};
}

}  // namespace planner
