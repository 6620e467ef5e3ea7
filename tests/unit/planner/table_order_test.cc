#include "planner/table_order.h"

#include <catch2/catch.hpp>
#include <limits>

#include "obvious.h"

using namespace planner;

namespace {

const Deadline kNoLimit(1e9);

BlockProblem block(const std::vector<std::int64_t>& times, const std::vector<UnitDemand>& demands) {
    BlockProblem problem;
    for (const std::int64_t time : times) {
        Unit unit;
        unit.time = time;
        unit.leads.add(60 + static_cast<int>(problem.units.size()));
        problem.units.push_back(unit);
        problem.time += time;
    }
    problem.demands = demands;
    for (const UnitDemand& demand : demands) problem.weight += demand.weight;
    return problem;
}

}  // namespace

TEST_CASE("table: learning times, worked by hand and confirmed by permutation", "[planner][table]") {
    // {1,2} w4, {3} w2, {3,4} w3, {5} w1 with times 1 3 2 1 2: order 3 4 1 2 5 costs 4 + 9 + 28 + 9.
    const BlockProblem five = block({1, 3, 2, 1, 2}, {{0b00011, 4}, {0b00100, 2}, {0b01100, 3}, {0b10000, 1}});
    const auto answer = order_by_table(five, {}, kNoLimit);
    CHECK(answer->cost == 50);
    CHECK(answer->states == 32);
    CHECK(cost_of_units(five, answer->units) == 50);
    CHECK(cost_of_units(five, std::vector<int>{2, 3, 0, 1, 4}) == 50);

    // {1} w3, {2} w1 with times 2 1: 9 against 10 the other way round.
    const BlockProblem two = block({2, 1}, {{0b01, 3}, {0b10, 1}});
    CHECK(order_by_table(two, {}, kNoLimit)->units == std::vector<int>{0, 1});
    CHECK(order_by_table(two, {}, kNoLimit)->cost == 9);
    CHECK(cost_of_units(two, std::vector<int>{1, 0}) == 10);
}

TEST_CASE("table: gluing a one-way pair would be wrong", "[planner][table]") {
    // {b} w10, {a,b} w1, {c} w5: b c a costs 23; with a right after b, 27. Worked by hand.
    const BlockProblem three = block({1, 1, 1}, {{0b010, 10}, {0b011, 1}, {0b100, 5}});
    CHECK(order_by_table(three, {}, kNoLimit)->units == std::vector<int>{1, 2, 0});
    CHECK(order_by_table(three, {}, kNoLimit)->cost == 23);
    CHECK(cost_of_units(three, std::vector<int>{1, 0, 2}) == 27);
}

TEST_CASE("table: agrees with every order tried, folded or not, with any times", "[planner][table]") {
    std::mt19937 random(31);
    for (int round = 0; round < 300; ++round) {
        const BlockProblem problem =
            obvious::random_block(random, 1 + static_cast<int>(random() % 7), 10, 4, 1 + round % 4);
        const auto answer = order_by_table(problem, {}, kNoLimit);
        REQUIRE(answer->cost == obvious::least_to_come(problem, 0));
        REQUIRE(cost_of_units(problem, answer->units) == answer->cost);
        const auto folded = order_by_table(problem, {}, kNoLimit, 0);
        REQUIRE(folded->cost == answer->cost);
        REQUIRE(cost_of_units(problem, folded->units) == answer->cost);
    }
}

TEST_CASE("table: several rows, folded and with wide numbers", "[planner][table]") {
    std::mt19937 random(32);
    for (int round = 0; round < 20; ++round) {
        const int units = 11 + round % 4;
        BlockProblem problem = obvious::random_block(random, units, 40, 5, 1 + round % 3);
        const auto narrow = order_by_table(problem, {}, kNoLimit);
        REQUIRE(order_by_table(problem, {}, kNoLimit, 0)->cost == narrow->cost);
        REQUIRE(table_bytes(problem) == std::uint64_t{4} << units);
        REQUIRE(table_bytes(problem, 0) == std::uint64_t{2} << units);
        const std::int64_t factor = std::int64_t{1} << 32;
        for (UnitDemand& demand : problem.demands) demand.weight *= factor;
        problem.weight *= factor;
        const auto wide = order_by_table(problem, {}, kNoLimit);
        REQUIRE(wide->cost == narrow->cost * factor);
        REQUIRE(wide->units == narrow->units);
        REQUIRE(table_bytes(problem) == std::uint64_t{8} << units);
        REQUIRE(order_by_table(problem, {}, kNoLimit, 0)->cost == wide->cost);
    }
}

TEST_CASE("table: its bytes are counted beyond 32 bits", "[planner][table]") {
    std::mt19937 random(33);
    for (const int units : {29, 30, 31, 33, 40})
        CHECK(table_bytes(obvious::random_block(random, units, 40, 5, 1)) == std::uint64_t{2} << units);
    CHECK(table_bytes(obvious::random_block(random, 41, 40, 5, 1)) == std::numeric_limits<std::uint64_t>::max());
}

TEST_CASE("table: ties to what meets more, then to the easier unit", "[planner][table]") {
    // C, C#, D: all alike; the naturals first, the nearer one to E first.
    const BlockProblem alike = block({1, 1, 1}, {{0b001, 1}, {0b010, 1}, {0b100, 1}});
    CHECK(order_by_table(alike, obvious::note_set({64}), kNoLimit)->units == std::vector<int>{2, 0, 1});
    // Pair {1,2} w2 and single {3} w1 are equally dense: the single opens more now.
    const BlockProblem dense = block({1, 1, 1}, {{0b011, 2}, {0b100, 1}});
    CHECK(order_by_table(dense, {}, kNoLimit)->units == std::vector<int>{2, 0, 1});
}

TEST_CASE("table: gives up at the deadline", "[planner][table]") {
    std::mt19937 random(33);
    const BlockProblem problem = obvious::random_block(random, 21, 40, 5, 1);
    CHECK_FALSE(order_by_table(problem, {}, Deadline(0)));
}
