#include "planner/outlook.h"

#include <catch2/catch.hpp>

#include "obvious.h"

using namespace planner;

TEST_CASE("outlook: bound, waiting weight and ways from every set of small blocks", "[planner][outlook]") {
    std::mt19937 random(515);
    for (int round = 0; round < 120; ++round) {
        const BlockProblem problem =
            obvious::random_block(random, 2 + static_cast<int>(random() % 5), 9, 4, 1 + round % 3);
        Outlook outlook(problem);
        for (std::uint64_t learnt = 0; learnt < problem.all_units(); ++learnt) {
            outlook.look_from(learnt);
            const std::int64_t least = obvious::least_to_come(problem, learnt);
            REQUIRE(outlook.waiting() == problem.waiting_after(learnt));
            REQUIRE(outlook.least_beyond(0, {}, least) <= least);
            REQUIRE(outlook.least_beyond(0, {}, least) >= outlook.waiting());  // the next time unit at least
            const std::uint64_t way = random() & problem.all_units() & ~learnt;
            const std::int64_t beyond = obvious::least_to_come(problem, learnt | way);
            const std::vector<Outlook::Price> any{1, 16384, 77, 3000, 5, 16384};
            REQUIRE(outlook.least_beyond(way, std::span(any).first(problem.units.size()), beyond) <= beyond);

            // A way meets something; without any one of its units it meets nothing.
            std::set<std::uint64_t> ways;
            for (std::uint64_t trial = 1; trial <= problem.all_units(); ++trial) {
                if ((trial & learnt) != 0 || problem.waiting_after(learnt | trial) == outlook.waiting()) continue;
                bool is_smallest = true;
                for (std::uint64_t units = trial; units != 0; units &= units - 1)
                    if (problem.waiting_after(learnt | (trial & ~(units & (~units + 1)))) != outlook.waiting())
                        is_smallest = false;
                if (is_smallest) ways.insert(trial);
            }
            const auto found = outlook.smallest_ways();
            REQUIRE(std::set<std::uint64_t>(found.begin(), found.end()) == ways);
            REQUIRE(found.size() == ways.size());
        }
    }
}

TEST_CASE("outlook: a tune of many notes cannot be met early", "[planner][outlook]") {
    // One demand for eight units, weight 10, and nothing else: 80 and no less. Density alone would give 45.
    BlockProblem problem;
    for (int unit = 0; unit < 8; ++unit) problem.units.push_back({obvious::note_set({60 + unit}), 1});
    problem.demands = {{0xFF, 10}};
    problem.weight = 10;
    problem.time = 8;
    Outlook outlook(problem);
    outlook.look_from(0);
    CHECK(outlook.least_beyond(0, {}, 1000) == 80);
}

TEST_CASE("outlook: the largest weights do not overflow", "[planner][outlook]") {
    BlockProblem problem;
    for (int unit = 0; unit < 4; ++unit) problem.units.push_back({obvious::note_set({60 + unit}), 32});
    problem.demands = {{0b0011, kMaxTotalWeight / 2}, {0b1100, kMaxTotalWeight / 2}};
    problem.weight = kMaxTotalWeight;
    problem.time = 128;
    Outlook outlook(problem);
    outlook.look_from(0);
    const std::int64_t least = 64 * kMaxTotalWeight + 64 * (kMaxTotalWeight / 2);
    const std::int64_t bound = outlook.least_beyond(0, {}, least);
    CHECK(bound <= least);
    CHECK(bound > least / 4 * 3);
}
