#include "planner/task.h"

#include <catch2/catch.hpp>

#include "obvious.h"
#include "planner/goal_fault.h"
#include "planner/order_notes.h"

using namespace planner;
using obvious::note_set;

namespace {

std::optional<Fault> fault_of(const std::vector<Wanted>& wanted, const Goal& goal) {
    try {
        make_task(wanted, goal);
    } catch (const GoalFault& fault) {
        return fault.fault();
    }
    return std::nullopt;
}

}  // namespace

TEST_CASE("task: what must come before is needed too", "[planner][task]") {
    Goal goal;
    goal.before = {{60, 62}, {62, 64}};
    const Task task = make_task(obvious::wanted({{{64}}, {{60}}, {{65}}}), goal);
    CHECK(task.wanted[0].needed == note_set({60, 62, 64}));
    CHECK(task.wanted[1].needed == note_set({60}));
    CHECK(task.wanted[2].needed == note_set({65}));
    goal.have = note_set({60, 62});
    CHECK(make_task(obvious::wanted({{{64}}}), goal).wanted[0].needed == note_set({64}));
    CHECK(keep_befores(std::vector<int>{64, 65, 62, 66, 60}, task.befores) == std::vector<int>{65, 66, 60, 62, 64});
}

TEST_CASE("task: a note name is learnt in all octaves the tunes need", "[planner][task]") {
    Goal goal = obvious::having({61});
    goal.by_name = true;
    goal.times[73] = 3;
    const Task task = make_task(obvious::wanted({{{61, 73}}, {{85, 62}}}), goal);
    CHECK(task.groups.lead_of(85) == 73);
    CHECK(task.groups.group_of(73) == note_set({73, 85}));
    CHECK(task.groups.time_of(73) == 3);  // the hardest
    CHECK(task.missing(task.wanted[1].needed, goal.have) == note_set({62, 73}));
}

TEST_CASE("task: tunes that need an avoided note never open", "[planner][task]") {
    Goal goal = obvious::having({60});
    goal.avoid = note_set({60, 61});
    const Task task = make_task(obvious::wanted({{{60, 62}}, {{61}}}), goal);
    CHECK(task.never_open == 1);
    REQUIRE(task.wanted.size() == 1);
    CHECK(task.wanted[0].needed == note_set({60, 62}));
}

TEST_CASE("task: goals that contradict themselves say what is wrong", "[planner][task]") {
    const auto wanted = obvious::wanted({{{60, 61}}, {{62}}});
    Goal goal;
    goal.before = {{60, 61}, {61, 62}, {62, 60}};
    CHECK(fault_of(wanted, goal) == Fault(WrongBefore{60, 61, WrongBefore::Why::both_ways}));
    goal = {};
    goal.before = {{60, 60}};
    CHECK(fault_of(wanted, goal) == Fault(WrongBefore{60, 60, WrongBefore::Why::learnt_together}));
    goal = {};
    goal.first = {60, 62, 60};
    CHECK(fault_of(wanted, goal) == Fault(WrongFirst{60, WrongFirst::Why::twice}));
    goal.first = {62, 60};
    goal.before = {{60, 62}};
    CHECK(fault_of(wanted, goal) == Fault(NamedTooEarly{62, 60}));
    goal.before.clear();
    goal.have = note_set({62});
    CHECK(fault_of(wanted, goal) == Fault(WrongFirst{62, WrongFirst::Why::there_already}));
    goal.have = {};
    goal.avoid = note_set({60});
    CHECK(fault_of(wanted, goal) == Fault(WrongFirst{60, WrongFirst::Why::never_learnt}));
    goal.first.clear();
    goal.before = {{60, 62}};
    CHECK(fault_of(wanted, goal) == Fault(WrongBefore{60, 62, WrongBefore::Why::never_learnt}));
    goal.avoid = {};
    goal.have = note_set({62});
    CHECK(fault_of(wanted, goal) == Fault(WrongBefore{60, 62, WrongBefore::Why::there_already}));
    goal = {};
    goal.groups = {{note_set({60, 61}), {}}, {note_set({61, 62}), {}}};
    CHECK(fault_of(wanted, goal) == Fault(InTwoGroups{note_set({61})}));
}

TEST_CASE("task: what no path meets is said with what it would take", "[planner][task]") {
    const auto wanted = obvious::wanted({{{60, 61}}, {{62, 64, 65}}});
    Goal goal;
    goal.must = {{tune::TuneId{2}, 2}};
    CHECK(fault_of(wanted, goal) == Fault(TooFewSteps{{{2}}, 2, 3, note_set({62, 64, 65}), {}}));
    goal.must = {{tune::TuneId{1}, 1}};
    CHECK(fault_of(wanted, goal) == Fault(TooFewSteps{{{1}}, 1, 2, note_set({60, 61}), {}}));
    goal.must = {{tune::TuneId{1}, 3}, {tune::TuneId{2}, 4}};
    CHECK(fault_of(wanted, goal) == Fault(TooFewSteps{{{1}, {2}}, 4, 5, note_set({60, 61, 62, 64, 65}), {}}));
    goal.must = {{tune::TuneId{1}, 3}};
    goal.first = {62, 64};
    CHECK(fault_of(wanted, goal) == Fault(TooFewSteps{{{1}}, 3, 4, note_set({60, 61}), note_set({62, 64})}));
    goal.first.clear();
    goal.avoid = note_set({61});
    CHECK(fault_of(wanted, goal) == Fault(NeedsAvoided{{1}, note_set({61})}));
    CHECK_FALSE(GoalFault(NeedsAvoided{}).is_contradiction());
    CHECK(GoalFault(NamedTooEarly{}).is_contradiction());
}

TEST_CASE("path: agrees with every order tried, whatever the goal asks", "[planner][task]") {
    std::mt19937 random(2026);
    const auto chance = [&random](unsigned one_in) { return random() % one_in == 0; };
    int kept = 0;
    int unmet = 0;
    for (int round = 0; round < 3000; ++round) {
        const int notes = 2 + static_cast<int>(random() % 5);
        const auto note = [&] { return 60 + static_cast<int>(random() % static_cast<unsigned>(notes)); };
        auto wanted = obvious::random_tunes(random, notes, 1 + static_cast<int>(random() % 9), 1 + round % 5);
        if (chance(5)) wanted[0].weight = 0;
        Goal goal;
        if (chance(4)) goal.have.add(note());
        if (chance(5)) goal.avoid.add(note());
        if (chance(2))
            for (std::int64_t& time : goal.times) time = 1 + static_cast<std::int64_t>(random() % 4);
        if (chance(3)) {
            const int a = note();
            const int b = note();
            Group group{note_set({a, b}), {}};
            if (chance(2)) group.time = 1 + static_cast<std::int64_t>(random() % 5);
            goal.groups.push_back(group);
        } else if (chance(6)) {
            goal.by_name = true;
            for (Wanted& tune : wanted)
                if (chance(2)) tune.needed.add(note() + 12);
        }
        if (chance(3)) goal.first.push_back(note());
        if (chance(6)) goal.first.push_back(note());
        while (chance(3)) goal.before.push_back({note(), note()});
        while (chance(3)) {
            // In the brute force a tune that must open weighs at least 1, as it does in the planner.
            Wanted& tune = wanted[random() % wanted.size()];
            tune.weight = std::max<std::int64_t>(tune.weight, 1);
            goal.must.push_back({tune.id, 1 + static_cast<std::int64_t>(random() % static_cast<unsigned>(notes))});
        }
        Plan plan;
        try {
            plan = plan_path(wanted, goal);
        } catch (const GoalFault& fault) {
            ++unmet;
            if (!fault.is_contradiction()) REQUIRE_FALSE(obvious::least_cost_under(wanted, goal));
            continue;
        }
        const auto least = obvious::least_cost_under(wanted, goal);
        INFO("round " << round);
        REQUIRE(least);
        REQUIRE(plan.cost == static_cast<double>(*least));
        REQUIRE(plan.proof == Proof::optimal);
        std::int64_t told = 0;
        for (const Step& step : plan.steps)
            for (const tune::TuneId id : step.ids)
                told += wanted[static_cast<std::size_t>(id.value) - 1].weight * step.time;
        REQUIRE(told == *least);
        std::vector<std::size_t> step_of(music::kMidiNotes, plan.steps.size());
        for (std::size_t step = 0; step < plan.steps.size(); ++step)
            for (const int midi : plan.steps[step].add.midi_numbers()) step_of[static_cast<std::size_t>(midi)] = step;
        for (const Before& pair : goal.before) {
            if (goal.have.has(pair.first)) continue;
            const std::size_t first = step_of[static_cast<std::size_t>(pair.first)];
            const std::size_t then = step_of[static_cast<std::size_t>(pair.then)];
            if (then == plan.steps.size()) continue;
            REQUIRE((first < then || (first == then && plan.steps[then].is_stall)));
        }
        ++kept;
    }
    CHECK(kept > 1000);
    CHECK(unmet > 100);
}

TEST_CASE("path: what is due is kept beyond the table too", "[planner][task]") {
    std::mt19937 random(77);
    for (int round = 0; round < 60; ++round) {
        const auto wanted = obvious::random_tunes(random, 11, 24, 5);
        Goal goal;
        for (int i = 0; i < 2; ++i) {
            const Wanted& tune = wanted[random() % wanted.size()];
            goal.must.push_back({tune.id, tune.needed.size() + static_cast<int>(random() % 3)});
        }
        Goal by_search = goal;
        by_search.limits.max_table_bytes = 0;
        Plan table;
        try {
            table = plan_path(wanted, goal);
        } catch (const GoalFault&) {
            continue;
        }
        const Plan search = plan_path(wanted, by_search);
        REQUIRE(table.proof == Proof::optimal);
        REQUIRE(search.proof == Proof::optimal);
        REQUIRE(table.cost == search.cost);
        REQUIRE(table.steps == search.steps);
        Goal hurried = by_search;
        hurried.limits.max_states = 1;
        const Plan rough = plan_path(wanted, hurried);
        REQUIRE(rough.lower_bound <= table.cost);
        REQUIRE(rough.cost >= table.cost);
    }
}
