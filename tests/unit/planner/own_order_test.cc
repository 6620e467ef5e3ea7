#include "planner/own_order.h"

#include <catch2/catch.hpp>

#include "obvious.h"

using namespace planner;
using obvious::note_set;

TEST_CASE("own order: where it loses, and by how much", "[planner][own_order]") {
    // The triangle, the pair and the single note, worked by hand: 37 at best, 41 when the single note comes first.
    const auto wanted = obvious::wanted({{{1, 2}, 2}, {{2, 3}, 2}, {{1, 3}, 2}, {{4}, 1}, {{5, 6}, 3}});
    const OwnOrder own = weigh_own_order(wanted, {}, {4, 1, 2, 3, 5, 6}, Deadline(1e9));
    CHECK(own.best.cost == 37);
    CHECK(own.completed.cost == 41);
    REQUIRE(own.steps.size() == 6);
    CHECK(own.steps[0].add == note_set({4}));
    CHECK(own.steps[0].loses == 4);
    for (std::size_t step = 1; step < 6; ++step) CHECK(own.steps[step].loses == 0);
    CHECK(own.steps[0].open == 1);
    CHECK(own.steps[0].best_open == 0);
    CHECK(own.steps[2].open == 2);
    CHECK(own.steps[2].best_open == 3);
}

TEST_CASE("own order: the losses of the steps are the whole loss", "[planner][own_order]") {
    std::mt19937 random(15);
    for (int round = 0; round < 60; ++round) {
        const auto wanted = obvious::random_tunes(random, 7, 12, 4);
        std::vector<int> order{60, 61, 62, 63, 64, 65, 66};
        std::shuffle(order.begin(), order.end(), random);
        order.resize(1 + random() % order.size());
        const OwnOrder own = weigh_own_order(wanted, {}, order, Deadline(1e9));
        REQUIRE(own.steps.size() == order.size());
        double lost = 0;
        for (const OwnStep& step : own.steps) {
            REQUIRE(step.loses);
            REQUIRE(*step.loses >= 0);
            lost += static_cast<double>(*step.loses);
        }
        REQUIRE(own.best.cost + lost == own.completed.cost);
    }
}

TEST_CASE("own order: notes learnt together are one step of it", "[planner][own_order]") {
    Goal goal;
    goal.by_name = true;
    const OwnOrder own = weigh_own_order(obvious::wanted({{{60, 72}}, {{62}}}), goal, {60, 72, 62}, Deadline(1e9));
    REQUIRE(own.steps.size() == 2);
    CHECK(own.steps[0].add == note_set({60, 72}));
    CHECK(own.steps[0].opens == 1);
    CHECK(own.completed.cost == 1 + 2);
}
