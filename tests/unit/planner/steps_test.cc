#include "planner/steps.h"

#include <catch2/catch.hpp>

#include "obvious.h"
#include "planner/task.h"

using namespace planner;
using obvious::note_set;

namespace {

std::vector<std::int64_t> ids(const Step& step) {
    std::vector<std::int64_t> numbers;
    for (const tune::TuneId id : step.ids) numbers.push_back(id.value);
    return numbers;
}

}  // namespace

TEST_CASE("steps: one note each, with what it opens and what else would have", "[planner][steps]") {
    const auto wanted = obvious::wanted({{{60}}, {{60, 62}}, {{60, 64}}, {{60, 64}}, {{60, 62, 64}}, {{60, 61}}});
    const auto steps =
        tell_steps(make_task(wanted, obvious::having({60})), obvious::having({60}), std::vector<int>{64, 62, 61});
    REQUIRE(steps.size() == 3);
    CHECK(steps[0].add == note_set({64}));
    CHECK(steps[0].opens == 2);
    CHECK(steps[0].open == 3);
    CHECK(ids(steps[0]) == std::vector<std::int64_t>{3, 4});
    CHECK(steps[0].runners_up == std::vector<RunnerUp>{{note_set({61}), 1, {}}, {note_set({62}), 1, {}}});
    CHECK(ids(steps[1]) == std::vector<std::int64_t>{2, 5});
    CHECK(steps[1].runners_up == std::vector<RunnerUp>{{note_set({61}), 1, {}}});
    CHECK(steps[2].open == 6);
    CHECK(steps[2].runners_up.empty());
    for (const Step& step : steps) CHECK_FALSE(step.is_stall);
}

TEST_CASE("steps: where no single note opens anything, a group does", "[planner][steps]") {
    const auto wanted = obvious::wanted(
        {{{60, 62}}, {{60, 62}}, {{64, 65}}, {{64, 65}}, {{64, 65}}, {{67, 69, 71}}, {{60, 62, 64, 65}}});
    const auto steps = tell_steps(make_task(wanted, {}), {}, std::vector<int>{64, 65, 60, 62, 67, 69, 71});
    REQUIRE(steps.size() == 3);
    CHECK(steps[0].is_stall);
    CHECK(steps[0].add == note_set({64, 65}));
    CHECK(steps[0].opens == 3);
    // As many notes or fewer, and none to spare: not {67,69,71}, not {60,62,64,65}.
    CHECK(steps[0].runners_up == std::vector<RunnerUp>{{note_set({60, 62}), 2, {}}});
    CHECK(steps[1].opens == 3);
    CHECK(steps[2].add == note_set({67, 69, 71}));
    CHECK(steps[2].is_stall);
}

TEST_CASE("steps: a note learnt for later stays a step of its own", "[planner][steps]") {
    // C4 would open a tune at once; the order learns the pair first.
    const auto wanted = obvious::wanted({{{60}, 3}, {{62, 64}, 10}});
    const auto steps = tell_steps(make_task(wanted, {}), {}, std::vector<int>{62, 64, 60});
    REQUIRE(steps.size() == 3);
    CHECK(steps[0].opens == 0);
    CHECK_FALSE(steps[0].is_stall);
    CHECK(steps[0].ids.empty());
    CHECK(steps[0].runners_up == std::vector<RunnerUp>{{note_set({60}), 1, {}}});
    CHECK(steps[1].runners_up == std::vector<RunnerUp>{{note_set({60}), 1, {}}});
    CHECK(steps[1].opens == 1);
}

TEST_CASE("steps: shown up to the limit, runners-up up to theirs", "[planner][steps]") {
    const auto wanted = obvious::wanted({{{60}}, {{62}}, {{64}}, {{65}}, {{67}}, {{67}}});
    Goal goal;
    goal.max_steps = 2;
    goal.runners_up = 2;
    const auto steps = tell_steps(make_task(wanted, goal), goal, std::vector<int>{60, 62, 64, 65, 67});
    REQUIRE(steps.size() == 2);
    CHECK(steps[0].runners_up == std::vector<RunnerUp>{{note_set({67}), 2, {}}, {note_set({62}), 1, {}}});
    CHECK(ids(steps[1]) == std::vector<std::int64_t>{2});
    goal.runners_up = 0;
    CHECK(tell_steps(make_task(wanted, goal), goal, std::vector<int>{60, 62, 64, 65, 67})[0].runners_up.empty());
}
