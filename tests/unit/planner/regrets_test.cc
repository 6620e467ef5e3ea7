#include "planner/regrets.h"

#include <catch2/catch.hpp>

#include "obvious.h"
#include "planner/order_notes.h"

using namespace planner;
using obvious::note_set;

namespace {

Goal weighing() {
    Goal goal;
    goal.weigh_alternatives = true;
    return goal;
}

}  // namespace

TEST_CASE("regrets: the pair that pays later, and what taking the single note first would cost", "[planner][regrets]") {
    // {1} w3 and {2,3} w10: 2 3 1 costs 29, 1 2 3 costs 3 + 30 = 33. Worked by hand.
    const Plan plan = plan_path(obvious::wanted({{{1}, 3}, {{2, 3}, 10}}), weighing());
    REQUIRE(plan.steps.size() == 3);
    CHECK(plan.steps[0].add == note_set({2}));
    REQUIRE(plan.steps[0].greedy);
    CHECK(*plan.steps[0].greedy == RunnerUp{note_set({1}), 1, 4});
    REQUIRE(plan.steps[0].runners_up.size() == 1);
    CHECK(plan.steps[0].runners_up[0] == RunnerUp{note_set({1}), 1, 4});
    CHECK(plan.steps[0].pays_off == PayOff{2, 1, tune::TuneId{2}});
    CHECK_FALSE(plan.steps[1].greedy);
    // At step 2 the single note in between: 10 x 1 later, 3 x 1 sooner.
    CHECK(plan.steps[1].runners_up[0] == RunnerUp{note_set({1}), 1, 7});
    CHECK_FALSE(plan.steps[2].pays_off);
}

TEST_CASE("regrets: exactly what a beginning with the other note costs more", "[planner][regrets]") {
    std::mt19937 random(51);
    for (int round = 0; round < 150; ++round) {
        const auto wanted = obvious::random_tunes(random, 8, 14, 4);
        Goal goal = weighing();
        if (round % 2 == 0)
            for (std::int64_t& time : goal.times) time = 1 + static_cast<std::int64_t>(random() % 3);
        const Plan plan = plan_path(wanted, goal);
        Goal forced = goal;
        for (const Step& step : plan.steps) {
            const auto check = [&](const RunnerUp& other) {
                if (other.add.size() > 1) return;
                Goal instead = forced;
                instead.first.push_back(other.add.lowest());
                REQUIRE(other.costs_more);
                REQUIRE(plan_path(wanted, instead).cost == plan.cost + static_cast<double>(*other.costs_more));
            };
            for (const RunnerUp& other : step.runners_up) check(other);
            if (step.greedy) check(*step.greedy);
            for (const int note : step.add.midi_numbers()) forced.first.push_back(note);
        }
    }
}
