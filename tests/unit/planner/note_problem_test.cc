#include "planner/note_problem.h"

#include <catch2/catch.hpp>

#include "obvious.h"

using namespace planner;
using obvious::note_set;

TEST_CASE("demands: equal missing sets are one, open tunes none", "[planner][note_problem]") {
    const auto wanted = obvious::wanted({{{60, 62}, 3}, {{62}, 2}, {{60, 62, 64}, 1}, {{60}, 9}});
    const std::vector<Demand> demands = gather_demands(wanted, note_set({60}), obvious::kSingleNotes);
    REQUIRE(demands.size() == 2);
    CHECK(demands[0] == Demand{note_set({62, 64}), 1, 1});
    CHECK(demands[1] == Demand{note_set({62}), 5, 2});
    CHECK(weight_of(demands) == 6);
    CHECK(leads_of(demands) == note_set({62, 64}));
    CHECK(demands_after(demands, note_set({62})) == std::vector<Demand>{{note_set({64}), 1, 1}});
    CHECK(demands_within(demands, note_set({62})) == std::vector<Demand>{{note_set({62}), 5, 2}});
}

TEST_CASE("demands: the order of sets is total", "[planner][note_problem]") {
    const std::vector<music::NoteSet> sets{
        {}, note_set({0}), note_set({0, 127}), note_set({63, 64}), note_set({64}), note_set({127})};
    for (const auto& a : sets)
        for (const auto& b : sets) {
            CHECK((comes_before(a, b) || comes_before(b, a)) == (a != b));
            CHECK_FALSE((comes_before(a, b) && comes_before(b, a)));
        }
    CHECK(comes_before(note_set({60}), note_set({62})));
}

TEST_CASE("demands: cost counts weight by the time of the last note", "[planner][note_problem]") {
    const auto wanted = obvious::wanted({{{60, 62}, 3}, {{62}, 2}});
    const std::vector<Demand> demands = gather_demands(wanted, {}, obvious::kSingleNotes);
    CHECK(cost_of(demands, std::vector<int>{62, 60}, obvious::kSingleNotes) == 2 * 1 + 3 * 2);
    CHECK(cost_of(demands, std::vector<int>{60, 62}, obvious::kSingleNotes) == 5 * 2);
}
