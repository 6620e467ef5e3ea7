#include "planner/bounded_search.h"

#include <catch2/catch.hpp>
#include <numeric>

#include "obvious.h"
#include "planner/table_order.h"

using namespace planner;

namespace {

const Deadline kNoHurry(1e9);

std::vector<int> any_order(const BlockProblem& problem) {
    std::vector<int> order(problem.units.size());
    std::iota(order.begin(), order.end(), 0);
    return order;
}

}  // namespace

TEST_CASE("search: the table's cost and the table's order, whatever the start", "[planner][search]") {
    std::mt19937 random(616);
    for (int round = 0; round < 300; ++round) {
        const BlockProblem problem =
            obvious::random_block(random, 1 + static_cast<int>(random() % 9), 12, 4, 1 + round % 3);
        const music::NoteSet known = obvious::note_set({48});
        const auto table = order_by_table(problem, known, kNoHurry);
        for (const std::vector<int>& start : {any_order(problem), table->units}) {
            const SearchOrder found = order_by_search(problem, known, start, 1'000'000, kNoHurry);
            REQUIRE(found.is_proven());
            REQUIRE(found.cost == table->cost);
            REQUIRE(found.units == table->units);
        }
    }
}

TEST_CASE("search: ended early, the bound is honest and the start is kept", "[planner][search]") {
    std::mt19937 random(617);
    for (int round = 0; round < 60; ++round) {
        const BlockProblem problem = obvious::random_block(random, 10, 25, 5, 1 + round % 2);
        const std::int64_t least = order_by_table(problem, {}, kNoHurry)->cost;
        for (const std::size_t max_states : {0, 1, 5, 20, 60}) {
            const SearchOrder found = order_by_search(problem, {}, any_order(problem), max_states, kNoHurry);
            REQUIRE(found.lower_bound <= least);
            REQUIRE(found.cost >= least);
            REQUIRE(cost_of_units(problem, found.units) == found.cost);
        }
    }
}
