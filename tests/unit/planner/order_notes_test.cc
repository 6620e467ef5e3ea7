#include "planner/order_notes.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <ctime>

#include "obvious.h"

using namespace planner;
using obvious::note_set;

namespace {

std::vector<int> notes_in_order(const Plan& plan) {
    std::vector<int> notes;
    for (const auto& group : obvious::groups_of(plan)) notes.insert(notes.end(), group.begin(), group.end());
    return notes;
}

// What must hold of every full plan.
void check_is_sound(const std::vector<Wanted>& wanted, const Goal& goal, const Plan& plan) {
    REQUIRE(plan.cost == static_cast<double>(obvious::cost(wanted, goal.have, obvious::groups_of(plan))));
    REQUIRE(plan.lower_bound <= plan.cost);
    REQUIRE((plan.proof == Proof::optimal) == (plan.lower_bound == plan.cost));
    REQUIRE(plan.greedy_cost >= plan.cost);
    REQUIRE(plan.tunes == static_cast<std::int64_t>(wanted.size()));
    REQUIRE(plan.never_open == 0);

    music::NoteSet known = goal.have;
    std::size_t learnt = 0;
    std::int64_t open = plan.open_now;
    std::set<tune::TuneId> seen(plan.ids_open_now.begin(), plan.ids_open_now.end());
    REQUIRE(static_cast<std::int64_t>(seen.size()) == plan.open_now);
    for (const Step& step : plan.steps) {
        REQUIRE_FALSE(step.add.empty());
        REQUIRE((step.add & known).empty());
        REQUIRE((step.is_stall || step.add.size() == 1));
        known = known | step.add;
        learnt += static_cast<std::size_t>(step.add.size());
        std::int64_t fit = 0;
        for (const Wanted& tune : wanted) fit += tune.needed.is_within(known) ? 1 : 0;
        open += step.opens;
        REQUIRE(open == fit);
        REQUIRE(step.open == fit);
        REQUIRE(static_cast<std::int64_t>(step.ids.size()) == step.opens);
        REQUIRE(std::is_sorted(step.ids.begin(), step.ids.end()));
        for (const tune::TuneId id : step.ids) REQUIRE(seen.insert(id).second);
        for (const RunnerUp& other : step.runners_up) REQUIRE((other.opens > 0 && other.add != step.add));
    }
    REQUIRE(learnt == plan.groups_to_learn);
    REQUIRE(seen.size() == wanted.size());
}

}  // namespace

TEST_CASE("path: worked by hand and confirmed by permutation", "[planner][path]") {
    struct Example {
        std::vector<obvious::Tune> tunes;
        std::vector<int> have;
        double cost;
    };
    const std::vector<Example> examples{
        {{{{1, 2}, 3}, {{1, 2, 3}, 2}, {{4}, 1}, {{4, 5}, 4}}, {}, 31},
        {{{{1, 2}, 2}, {{2, 3}, 2}, {{1, 3}, 2}, {{4}, 1}, {{5, 6}, 3}}, {}, 37},
        {{{{1, 2}, 2}, {{2, 3}, 2}, {{1, 3}, 2}, {{4}, 1}, {{5, 6}, 3}}, {1}, 27},
        {{{{1}}, {{2}}, {{1, 2}}}, {}, 5},
        {{{{1}, 3}, {{2, 3}, 10}}, {}, 29},
        {{{{1, 2}}, {{2, 3}}, {{1, 3}}}, {}, 8},
        {{{{1}}, {{1, 2}}, {{1, 2, 3}}, {{1, 2, 3, 4}}}, {}, 10},
        {{{{1, 2, 3}, 6}, {{4}, 1}}, {}, 22},
        {{{{1, 2}, 5}, {{3}, 3}, {{4}, 3}}, {}, 29},
        {{{{2}, 10}, {{1, 2}, 1}, {{3}, 5}}, {}, 23},
    };
    for (const Example& example : examples) {
        const auto wanted = obvious::wanted(example.tunes);
        const Goal goal = obvious::having(example.have);
        const Plan plan = plan_path(wanted, goal);
        CHECK(plan.cost == example.cost);
        CHECK(static_cast<double>(obvious::least_cost(wanted, goal.have)) == example.cost);
        CHECK(plan.proof == Proof::optimal);
        check_is_sound(wanted, goal, plan);
    }
}

TEST_CASE("path: the triangle before the pair before the single note", "[planner][path]") {
    const Plan plan = plan_path(obvious::wanted({{{1, 2}, 2}, {{2, 3}, 2}, {{1, 3}, 2}, {{4}, 1}, {{5, 6}, 3}}), {});
    CHECK(plan.greedy_cost == 41);
    CHECK(plan.largest_block == 3);
    CHECK(plan.groups_to_learn == 6);
    // Note 4 opens a tune from the start, so nothing is a stall: 5 and 6 come one by one.
    CHECK(plan.steps.size() == 6);
    CHECK(plan.steps.back().add == note_set({4}));
}

TEST_CASE("path: nothing wanted, nothing missing", "[planner][path]") {
    const Plan nothing = plan_path({}, {});
    CHECK(nothing.steps.empty());
    CHECK(nothing.proof == Proof::optimal);
    CHECK(nothing.cost == 0);
    const Plan open = plan_path(obvious::wanted({{{60, 62}}, {{62}}}), obvious::having({60, 62, 64}));
    CHECK(open.open_now == 2);
    CHECK(open.ids_open_now == std::vector{tune::TuneId{1}, tune::TuneId{2}});
    CHECK(open.steps.empty());
    CHECK(open.groups_to_learn == 0);
}

TEST_CASE("path: between equals the one that opens more now, then the easier", "[planner][path]") {
    // C# D D# E F beside G: F is nearest, then E, D; then the accidentals, D# before C# ... all open one tune.
    const auto each = obvious::wanted({{{61}}, {{62}}, {{63}}, {{64}}, {{65}}});
    CHECK(notes_in_order(plan_path(each, obvious::having({67}))) == std::vector<int>{65, 64, 62, 61, 63});
    // Pair of weight 2 against single of weight 1: as dense, but the single opens at once.
    CHECK(notes_in_order(plan_path(obvious::wanted({{{60, 62}, 2}, {{64}, 1}}), {})) == std::vector<int>{64, 60, 62});
}

TEST_CASE("path: tunes of weight 0 cost nothing and come last, most tunes first", "[planner][path]") {
    const auto wanted = obvious::wanted({{{60, 61}, 0}, {{62}, 0}, {{62}, 0}, {{65}, 1}});
    const Plan plan = plan_path(wanted, {});
    CHECK(plan.cost == 1);
    CHECK(plan.lower_bound == 1);
    CHECK(plan.proof == Proof::optimal);
    CHECK(notes_in_order(plan) == std::vector<int>{65, 62, 60, 61});
    check_is_sound(wanted, {}, plan);
}

TEST_CASE("path: agrees with every order tried on a thousand small collections", "[planner][path]") {
    std::mt19937 random(1850);
    for (int round = 0; round < 1000; ++round) {
        const int notes = 1 + static_cast<int>(random() % 7);
        const auto wanted = obvious::random_tunes(random, notes, 1 + static_cast<int>(random() % 12), 1 + round % 6);
        Goal goal;
        if (round % 3 == 0) goal.have.add(60 + static_cast<int>(random() % 7));
        const Plan plan = plan_path(wanted, goal);
        REQUIRE(plan.cost == static_cast<double>(obvious::least_cost(wanted, goal.have)));
        REQUIRE(plan.proof == Proof::optimal);
        check_is_sound(wanted, goal, plan);
    }
}

TEST_CASE("path: the order of the tunes changes nothing", "[planner][path]") {
    std::mt19937 random(2);
    for (int round = 0; round < 100; ++round) {
        auto wanted = obvious::random_tunes(random, 12, 25, 6);
        const Plan plan = plan_path(wanted, {});
        std::shuffle(wanted.begin(), wanted.end(), random);
        REQUIRE(plan_path(wanted, {}) == plan);
    }
}

TEST_CASE("path: two tunes of weights 2 and 3 are as one of weight 5", "[planner][path]") {
    std::mt19937 random(3);
    for (int round = 0; round < 100; ++round) {
        const auto whole = obvious::random_tunes(random, 10, 15, 5);
        auto split = whole;
        for (Wanted& tune : split)
            if (tune.weight > 2) {
                tune.weight -= 2;
                split.push_back({tune::TuneId{tune.id.value + 1000}, tune.needed, 2});
                break;
            }
        const Plan one = plan_path(whole, {});
        const Plan two = plan_path(split, {});
        REQUIRE(two.cost == one.cost);
        REQUIRE(two.lower_bound == one.lower_bound);
        REQUIRE(notes_in_order(two) == notes_in_order(one));
    }
}

TEST_CASE("path: other names for the notes change no cost; an octave higher is the same path", "[planner][path]") {
    std::mt19937 random(4);
    for (int round = 0; round < 100; ++round) {
        const auto wanted = obvious::random_tunes(random, 11, 18, 6);
        std::vector<int> name(music::kMidiNotes);
        for (int note = 0; note < music::kMidiNotes; ++note) name[static_cast<std::size_t>(note)] = note;
        std::shuffle(name.begin(), name.end(), random);
        auto renamed = wanted;
        auto higher = wanted;
        for (std::size_t tune = 0; tune < wanted.size(); ++tune) {
            renamed[tune].needed = higher[tune].needed = {};
            for (const int note : obvious::plain_set(wanted[tune].needed)) {
                renamed[tune].needed.add(name[static_cast<std::size_t>(note)]);
                higher[tune].needed.add(note + 12);
            }
        }
        const Plan plan = plan_path(wanted, {});
        const Plan by_other_names = plan_path(renamed, {});
        REQUIRE(by_other_names.cost == plan.cost);
        REQUIRE(by_other_names.lower_bound == plan.lower_bound);
        REQUIRE(by_other_names.largest_block == plan.largest_block);
        std::vector<int> expected = notes_in_order(plan);
        for (int& note : expected) note += 12;
        REQUIRE(notes_in_order(plan_path(higher, {})) == expected);
    }
}

TEST_CASE("path: one more tune never makes the others cheaper", "[planner][path]") {
    std::mt19937 random(5);
    for (int round = 0; round < 100; ++round) {
        const auto wanted = obvious::random_tunes(random, 9, 12, 5);
        auto more = wanted;
        more.push_back({tune::TuneId{500}, obvious::random_tunes(random, 9, 1, 5)[0].needed, 4});
        const Plan plan = plan_path(more, {});
        REQUIRE(static_cast<double>(obvious::cost(wanted, {}, obvious::groups_of(plan))) >= plan_path(wanted, {}).cost);
    }
}

TEST_CASE("path: showing fewer steps changes nothing else", "[planner][path]") {
    std::mt19937 random(6);
    const auto wanted = obvious::random_tunes(random, 10, 20, 5);
    const Plan whole = plan_path(wanted, {});
    Goal goal;
    goal.max_steps = 3;
    Plan part = plan_path(wanted, goal);
    REQUIRE(part.steps.size() == 3);
    CHECK(std::equal(part.steps.begin(), part.steps.end(), whole.steps.begin()));
    part.steps = whole.steps;
    CHECK(part == whole);
}

TEST_CASE("path: at the limits the best found, an honest bound and the word gap", "[planner][path]") {
    std::mt19937 random(7);
    for (int round = 0; round < 20; ++round) {
        const auto wanted = obvious::random_tunes(random, 18, 40, 6);
        const double least = plan_path(wanted, {}).cost;
        Goal hurried;
        hurried.limits.max_states = 3;
        hurried.limits.max_table_bytes = 0;
        const Plan plan = plan_path(wanted, hurried);
        check_is_sound(wanted, hurried, plan);
        REQUIRE(plan.lower_bound <= least);
        REQUIRE(plan.cost >= least);
    }
}

TEST_CASE("path: a dense collection of 24 notes is proven in less than a second", "[planner][path]") {
    std::mt19937 random(24);
    const auto wanted = obvious::random_tunes(random, 24, 80, 6);
    Goal goal;
    goal.limits.max_seconds = 300;
    const std::clock_t begin = std::clock();
    const Plan plan = plan_path(wanted, goal);
    [[maybe_unused]] const double seconds = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
    CHECK(plan.largest_block == 24);
    CHECK(plan.proof == Proof::optimal);
    check_is_sound(wanted, goal, plan);
#ifdef NDEBUG  // processor time of this process, measured at a fifth of this
    const char* factor = std::getenv("GAMUT_TIME_FACTOR");  // stretches time budgets, for slow builds
    CHECK(seconds < (factor != nullptr ? std::atof(factor) : 1.0));
#endif
}

TEST_CASE("path: all 128 notes at once", "[planner][path]") {
    std::vector<Wanted> wanted;
    std::mt19937 random(8);
    for (int note = 0; note < music::kMidiNotes; ++note) {
        const int next = (note + 1) % music::kMidiNotes;
        const int other = static_cast<int>(random() % music::kMidiNotes);
        wanted.push_back({tune::TuneId{note + 1}, note_set({note, next, other}), 1 + note % 3});
    }
    wanted.push_back({tune::TuneId{1000}, music::NoteSet(~std::uint64_t{0}, ~std::uint64_t{0}), 1});
    Goal goal;
    goal.limits.max_seconds = 0.2;
    goal.limits.max_table_bytes = 1 << 20;
    const Plan plan = plan_path(wanted, goal);
    CHECK(plan.groups_to_learn == 128);
    check_is_sound(wanted, goal, plan);
}

TEST_CASE("path: the largest weights are exact", "[planner][path]") {
    const std::int64_t half = kMaxTotalWeight / 2;
    const Plan plan = plan_path(obvious::wanted({{{60, 61, 62}, half}, {{61, 62, 63}, half}}), {});
    CHECK(plan.cost == static_cast<double>(half) * 3 + static_cast<double>(half) * 4);
    CHECK(plan.proof == Proof::optimal);
}

TEST_CASE("plan: proof tokens", "[planner][plan]") {
    CHECK(proof_token(Proof::optimal) == "optimal");
    CHECK(proof_token(Proof::gap) == "gap");
}
