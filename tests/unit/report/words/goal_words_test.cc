#include "report/words/goal_words.h"

#include <catch2/catch.hpp>

#include "music/note_expression.h"

namespace {

std::string told(const planner::Fault& fault) { return report::in_words(fault); }

}  // namespace

TEST_CASE("goal words: goals that contradict themselves", "[report][goal]") {
    using planner::WrongBefore, planner::WrongFirst;
    CHECK(told(WrongBefore{60, 61, WrongBefore::Why::both_ways}) == "C4 is to come before C#4 and C#4 before C4");
    CHECK(told(WrongBefore{60, 62, WrongBefore::Why::learnt_together}) ==
          "C4 cannot come before D4: they are learnt together");
    CHECK(told(WrongBefore{60, 62, WrongBefore::Why::there_already}) ==
          "C4 cannot come before D4, which is there already");
    CHECK(told(WrongBefore{60, 62, WrongBefore::Why::never_learnt}) ==
          "C4 is to come before D4, but it is never to be learnt");
    CHECK(told(WrongFirst{60, WrongFirst::Why::twice}) == "C4 is named twice");
    CHECK(told(WrongFirst{62, WrongFirst::Why::there_already}) == "D4 is named, but it is there already");
    CHECK(told(WrongFirst{60, WrongFirst::Why::never_learnt}) == "C4 is named, but it is never to be learnt");
    CHECK(told(planner::NamedTooEarly{62, 60}) == "D4 is named before C4, which is to come before it");
    CHECK(told(planner::InTwoGroups{music::read_notes("C#4")}) == "C#4 cannot be in two groups");
}

TEST_CASE("goal words: what no path meets is said with what it would take", "[report][goal]") {
    const music::NoteSet needs = music::read_notes("D4 E4 F4");
    CHECK(told(planner::TooFewSteps{{{2}}, 2, 3, needs, {}}) ==
          "tune 2 cannot open within 2 notes: it takes 3, for it needs D4 E4 F4");
    CHECK(told(planner::TooFewSteps{{{1}}, 1, 2, music::read_notes("C4 C#4"), {}}) ==
          "tune 1 cannot open within 1 note: it takes 2, for it needs C4 C#4");
    CHECK(told(planner::TooFewSteps{{{1}, {2}, {3}}, 4, 5, needs, music::read_notes("A4")}) ==
          "tunes 1, 2 and 3 cannot open within 4 notes: they take 5, for they need D4 E4 F4 after A4");
    CHECK(told(planner::NeedsAvoided{{1}, music::read_notes("C#4")}) ==
          "tune 1, which must open, needs C#4, never to be learnt");
    CHECK(told(planner::TooMuchForced{3, 2}) == "what the path must have takes 3 steps, more than the 2 asked about");
}
