#include "answers/path.h"

#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::Part;
using answers::PathQuestion;
using answers::Reason;

// From D4 E4: A tune of F#4, two of G4, one of both and A4, and one in which nothing sounds.
const std::string kSteps =
    "X:1\nT:One\nR:jig\nM:6/8\nL:1/8\nK:D\nDEF FED|]\n\nX:2\nT:Two\nR:reel\nM:4/4\nL:1/8\nK:C\n|:DEGE DEGE|DGED "
    "E4|DEGE DEGE|GEDE D4:|\n\n"
    "X:3\nT:Three\nR:reel\nM:4/4\nL:1/8\nK:C\n|:GEDE GEDE|EDGE D4|GEDG EDGE|DGEG "
    "D4:|\n\nX:4\nT:Four\nR:reel\nM:4/4\nL:1/8\nK:D\nDEFG A4|]\n\n"
    "X:5\nT:Silence\nM:4/4\nL:1/8\nK:C\nz8|]\n";

PathQuestion from_two_notes() {
    PathQuestion question;
    question.have = "D4 E4";
    return question;
}

std::vector<std::string> order_of(const answers::PathAnswer& answer) {
    std::vector<std::string> order;
    for (const planner::Step& step : answer.plan.steps)
        order.push_back(music::to_string(music::spell_midi(step.add.lowest())));
    return order;
}

answers::Refusal no_path(const collection::Memory& memory, const PathQuestion& question) {
    return support::refusal_of([&] { answers::answer(memory, question); });
}

}  // namespace

TEST_CASE("path: what opens most comes first, and what it opens is told", "[answers][path]") {
    const answers::PathAnswer answer = answers::answer(support::collected(kSteps), from_two_notes());
    CHECK(order_of(answer) == std::vector<std::string>{"G4", "F#4", "A4"});
    CHECK(answer.tunes == 4);
    CHECK(answer.without_notes == 1);
    REQUIRE(answer.opens.size() == 3);
    CHECK(answer.opens[0].examples == std::vector<std::string>{"Two", "Three"});
    CHECK(answer.opens[0].by_rhythm == std::map<std::string, std::int64_t>{{"reel", 2}});
    CHECK(answer.opens[1].by_rhythm == std::map<std::string, std::int64_t>{{"jig", 1}});
    CHECK_FALSE(answer.has_wishes);
    CHECK_FALSE(answer.free_cost.has_value());
}

TEST_CASE("path: a wish is kept, and what the best way without it costs is told", "[answers][path]") {
    PathQuestion question = from_two_notes();
    question.first = "F#4";
    const answers::PathAnswer answer = answers::answer(support::collected(kSteps), question);
    CHECK(order_of(answer).front() == "F#4");
    CHECK(answer.has_wishes);
    REQUIRE(answer.free_cost.has_value());
    CHECK(answer.plan.cost > *answer.free_cost);
}

TEST_CASE("path: a tune that must come is planned for whatever the filter says", "[answers][path]") {
    PathQuestion question = from_two_notes();
    question.filter.columns.rhythm = "reel";
    question.must = {{"One", 1}};
    const answers::PathAnswer answer = answers::answer(support::collected(kSteps), question);
    CHECK(order_of(answer).front() == "F#4");
    CHECK(answer.tunes == 4);
}

TEST_CASE("path: tunes count as often as somebody said, and those nobody counted are told", "[answers][path]") {
    people::Kept kept;
    kept.counts[1] = 9;
    PathQuestion question = from_two_notes();
    question.weight_by = answers::WeightBy::count;
    const answers::PathAnswer answer = answers::answer(support::collected(kSteps, kept), question);
    CHECK(order_of(answer).front() == "F#4");
    CHECK(answer.without_count == 3);
}

TEST_CASE("path: one's own order beside the best", "[answers][path]") {
    PathQuestion question = from_two_notes();
    question.order = "A4 F#4 G4";
    const answers::PathAnswer answer = answers::answer(support::collected(kSteps), question);
    REQUIRE(answer.own_order.has_value());
    CHECK(answer.own_order->completed.cost > answer.plan.cost);
}

TEST_CASE("path: the notes that open most, so many of them", "[answers][path]") {
    PathQuestion question = from_two_notes();
    question.best_in = 2;
    const answers::PathAnswer answer = answers::answer(support::collected(kSteps), question);
    REQUIRE(answer.best_in.has_value());
    CHECK(answer.best_in->met == 3);
    CHECK(answer.best_in_steps == 2);
}

TEST_CASE("path: what is beyond the instrument is left out and counted", "[answers][path]") {
    PathQuestion question = from_two_notes();
    question.filter.fits = {"D4 E4 G4"};
    const answers::PathAnswer answer = answers::answer(support::collected(kSteps), question);
    CHECK(order_of(answer) == std::vector<std::string>{"G4"});
    CHECK_FALSE(answer.reach.is_given());
    CHECK(answer.out_of_reach == 0);
    question.filter.fits.clear();
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    const std::string low = kSteps + "\nX:6\nT:Low\nM:4/4\nL:1/8\nK:C\nA,8|]\n";
    CHECK(answers::answer(support::collected(low), question).out_of_reach == 1);
}

TEST_CASE("path: what is no question", "[answers][path]") {
    const collection::Memory memory = support::collected(kSteps);
    PathQuestion question = from_two_notes();
    question.must = {{"Nowhere", {}}};
    CHECK(no_path(memory, question).reason == Reason::unknown_tune);
    question.must = {{"Silence", {}}};
    CHECK(no_path(memory, question).reason == Reason::no_note);
    question = from_two_notes();
    question.order = "D4";
    question.have = "D4";
    CHECK(no_path(memory, question).part != Part::none);
    question = from_two_notes();
    question.effort = answers::Effort::instrument;
    CHECK(no_path(memory, question).reason == Reason::grade_of_which);
    question = from_two_notes();
    question.must = {{"Four", 1}};
    CHECK(no_path(memory, question).reason == Reason::not_to_be_met);
}
