#include "planner/moves.h"

#include <catch2/catch.hpp>
#include <numeric>

#include "obvious.h"
#include "planner/greedy_order.h"

using namespace planner;

TEST_CASE("moves: better a greedy start to the least cost", "[planner][moves]") {
    // The triangle before the pair before the single note, worked by hand: 37. The start costs 41.
    const auto demands = gather_demands(obvious::wanted({{{1, 2}, 2}, {{2, 3}, 2}, {{1, 3}, 2}, {{4}, 1}, {{5, 6}, 3}}),
                                        {}, obvious::kSingleNotes);
    const BlockProblem problem = *number_units(demands, obvious::kSingleNotes);
    // Units: 1, 2, 3, 4 and {5, 6}.
    CHECK(problem.units.size() == 5);
    CHECK(cost_of_units(problem, std::vector<int>{3, 0, 1, 2, 4}) == 41);
    CHECK(cost_of_units(problem, improve_by_moves(problem, {3, 0, 1, 2, 4})) == 37);
}

TEST_CASE("moves: keep every unit, never raise the cost, and end where no move helps", "[planner][moves]") {
    std::mt19937 random(4711);
    for (int round = 0; round < 200; ++round) {
        const BlockProblem problem = obvious::random_block(random, 2 + static_cast<int>(random() % 9), 15, 4, 3);
        std::vector<int> start(problem.units.size());
        std::iota(start.begin(), start.end(), 0);
        std::shuffle(start.begin(), start.end(), random);
        const std::vector<int> better = improve_by_moves(problem, start);
        REQUIRE(std::is_permutation(better.begin(), better.end(), start.begin(), start.end()));
        REQUIRE(cost_of_units(problem, better) <= cost_of_units(problem, start));
        for (std::size_t from = 0; from < better.size(); ++from)
            for (std::size_t to = 0; to < better.size(); ++to) {
                std::vector<int> moved = better;
                const int unit = moved[from];
                moved.erase(moved.begin() + static_cast<std::ptrdiff_t>(from));
                moved.insert(moved.begin() + static_cast<std::ptrdiff_t>(to), unit);
                REQUIRE(cost_of_units(problem, moved) >= cost_of_units(problem, better));
            }
    }
}

TEST_CASE("ties: settled by ease, at the same cost", "[planner][moves]") {
    const auto demands =
        gather_demands(obvious::wanted({{{60, 61, 62}, 2}, {{66}, 1}, {{65}, 1}}), {}, obvious::kSingleNotes);
    CHECK(settle_ties(demands, {61, 62, 60, 66, 65}, {}, obvious::kSingleNotes, {}) ==
          std::vector<int>{60, 62, 61, 65, 66});

    std::mt19937 random(99);
    for (int round = 0; round < 200; ++round) {
        const auto wanted = obvious::random_tunes(random, 8, 6, 5);
        const auto waiting = gather_demands(wanted, {}, obvious::kSingleNotes);
        std::vector<int> order = leads_of(waiting).midi_numbers();
        std::shuffle(order.begin(), order.end(), random);
        const std::vector<int> settled = settle_ties(waiting, order, {}, obvious::kSingleNotes, {});
        REQUIRE(std::is_permutation(settled.begin(), settled.end(), order.begin(), order.end()));
        REQUIRE(obvious::cost(wanted, {}, obvious::one_by_one(settled)) ==
                obvious::cost(wanted, {}, obvious::one_by_one(order)));
        REQUIRE(settle_ties(waiting, settled, {}, obvious::kSingleNotes, {}) == settled);
    }
}
