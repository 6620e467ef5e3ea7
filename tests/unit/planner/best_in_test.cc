#include "planner/best_in.h"

#include "planner/goal_fault.h"

#include <catch2/catch.hpp>

#include "obvious.h"

using namespace planner;
using obvious::note_set;

TEST_CASE("best in: best sets do not nest, and the path's order is another matter", "[planner][best_in]") {
    // {1} w3 and {2,3} w4: best single note 1, best two 2 and 3. Worked by hand.
    const auto wanted = obvious::wanted({{{1}, 3}, {{2, 3}, 4}});
    CHECK(best_in(wanted, {}, 1, Deadline(1e9)).add == note_set({1}));
    const BestIn two = best_in(wanted, {}, 2, Deadline(1e9));
    CHECK(two.add == note_set({2, 3}));
    CHECK(two.met == 4);
    CHECK(two.proof() == Proof::optimal);
    CHECK(two.path.steps.size() == 1);  // without the single note neither opens anything by itself
    CHECK(two.path.never_open == 1);
}

TEST_CASE("best in: keeps to the goal", "[planner][best_in]") {
    const auto wanted = obvious::wanted({{{60}, 5}, {{61}, 1}, {{62}, 4}, {{62, 63}, 3}});
    Goal goal;
    goal.first = {61};
    CHECK(best_in(wanted, goal, 2, Deadline(1e9)).add == note_set({60, 61}));
    goal.must = {{tune::TuneId{4}, 3}};
    CHECK(best_in(wanted, goal, 3, Deadline(1e9)).add == note_set({61, 62, 63}));
    CHECK_THROWS_AS(best_in(wanted, goal, 2, Deadline(1e9)), GoalFault);
    goal = {};
    goal.before = {{61, 60}};
    CHECK(best_in(wanted, goal, 1, Deadline(1e9)).add == note_set({62}));
    CHECK(best_in(wanted, goal, 2, Deadline(1e9)).met == 7);
}

TEST_CASE("best in: more than there is to learn is everything", "[planner][best_in]") {
    const BestIn all = best_in(obvious::wanted({{{60, 61}}, {{62}}}), {}, 50, Deadline(1e9));
    CHECK(all.add == note_set({60, 61, 62}));
    CHECK(all.path.never_open == 0);
}

TEST_CASE("best in: as good as every set tried", "[planner][best_in]") {
    std::mt19937 random(12);
    for (int round = 0; round < 200; ++round) {
        const auto wanted = obvious::random_tunes(random, 8, 12, 4);
        const int steps = 1 + static_cast<int>(random() % 8);
        std::int64_t most = 0;
        for (unsigned set = 0; set < 256; ++set) {
            if (std::popcount(set) > steps) continue;
            std::int64_t met = 0;
            for (const Wanted& tune : wanted)
                met += tune.needed.is_within(music::NoteSet(static_cast<std::uint64_t>(set) << 60, set >> 4))
                           ? tune.weight
                           : 0;
            most = std::max(most, met);
        }
        const BestIn best = best_in(wanted, {}, static_cast<std::size_t>(steps), Deadline(1e9));
        REQUIRE(best.met == most);
        REQUIRE(best.proof() == Proof::optimal);
        REQUIRE(best.add.size() <= steps);
    }
}
