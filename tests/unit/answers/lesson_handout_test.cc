#include "answers/lesson_handout.h"

#include <catch2/catch.hpp>

#include "answers/stored_request.h"
#include "instruments/known.h"
#include "music/note_expression.h"
#include "support/collected.h"

namespace {

const std::string kLessonTunes =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAF DFAF|EFAF E4|DFAF DFAF|EAFE D4:|\n\n"
    "X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAB AFDE|FABA F4|DFAB AFDE|FAFE D4:|\n";

syllabus::Syllabus two_lessons() {
    syllabus::Syllabus plan;
    plan.name = "Mondays";
    plan.have = music::read_notes("D4 E4 F#4 A4");
    answers::TermRequest request;
    request.from = base::read_date("2027-01-18");
    request.filter.instrument = std::make_shared<const instruments::Instrument>(*instruments::find("whistle-d"));
    plan.asked = answers::write_request(request);
    syllabus::Lesson first;
    first.date = base::read_date("2027-01-18");
    first.tunes.push_back({tune::TuneId{1}, "Lamp", "reel", {}, syllabus::Use::none, 0, 0, 0, 60});
    syllabus::Lesson second;
    second.date = base::read_date("2027-01-25");
    second.notes = syllabus::NewNotes{music::read_notes("B4"), 1, {}};
    second.tunes.push_back({tune::TuneId{2}, "Rope", "reel", {}, syllabus::Use::seldom, 3, 1, 0, 60});
    second.tunes.push_back({tune::TuneId{99}, "Torn Out", "jig", {}, syllabus::Use::seldom, 1, 0, 0, 60});
    second.again.push_back(first.tunes.front());
    plan.lessons = {first, second};
    return plan;
}

}  // namespace

TEST_CASE("lesson handout: the note, its drill, its tunes, and what comes next", "[answers][lesson_handout]") {
    const collection::Memory memory = support::collected(kLessonTunes);
    const answers::LessonHandout first = answers::lesson_handout(memory, two_lessons(), 0, {});
    CHECK(first.fresh.empty());
    CHECK(first.drill.empty());
    CHECK(first.next_notes == music::read_notes("B4"));
    REQUIRE(first.sheets.size() == 1);
    const answers::LessonHandout second = answers::lesson_handout(memory, two_lessons(), 1, {});
    CHECK(second.number == 2);
    CHECK(second.fresh == music::read_notes("B4"));
    CHECK(second.have == music::read_notes("D4 E4 F#4 A4"));
    REQUIRE(second.instrument);  // the term's
    CHECK(second.instrument->id == "whistle-d");
    REQUIRE(second.drill.size() == 1);
    CHECK(second.drill[0].about == music::read_notes("B4").lowest());
    for (const answers::BlockBar& bar : second.drill[0].bars)
        for (const answers::Block& block : bar.blocks) CHECK(block.has_way);
    REQUIRE(second.sheets.size() == 1);
    CHECK(second.sheets[0].fresh == music::read_notes("B4"));
    CHECK(second.gone == std::vector<std::string>{"Torn Out"});
    CHECK(second.again.front().title == "Lamp");
    CHECK_FALSE(second.next_date);
}

TEST_CASE("lesson handout: a lesson that was lost brought no note", "[answers][lesson_handout]") {
    const collection::Memory memory = support::collected(kLessonTunes);
    syllabus::Syllabus plan = two_lessons();
    plan.lessons.push_back(plan.lessons[1]);
    plan.lessons[1].state = syllabus::LessonState::lost;
    CHECK(answers::lesson_handout(memory, plan, 2, {}).have == music::read_notes("D4 E4 F#4 A4"));
    CHECK(answers::lesson_handout(memory, plan, 0, {}).next_date == plan.lessons[2].date);
    CHECK(answers::ladder_of(memory, plan).lessons ==
          std::vector<std::pair<int, int>>{{music::read_notes("B4").lowest(), 3}});
}

TEST_CASE("lesson handout: a term's ladder has what is there and what comes, and no more",
          "[answers][lesson_handout]") {
    const answers::TermLadder ladder = answers::ladder_of(support::collected(kLessonTunes), two_lessons());
    REQUIRE(ladder.rungs.rungs.size() == 5);
    CHECK(ladder.rungs.rungs.back().is_fresh);
    CHECK(ladder.rungs.rungs.back().opens == 1);
}

TEST_CASE("lesson handout: a step of a path has its note and the tunes it opens", "[answers][lesson_handout]") {
    const collection::Memory memory = support::collected(kLessonTunes);
    answers::PathQuestion question;
    question.have = "D4 E4 F#4 A4";
    const answers::PathAnswer path = answers::answer(memory, question);
    REQUIRE(path.plan.steps.size() == 1);
    const answers::LessonHandout step = answers::step_handout(memory, question, path, 0, {});
    CHECK(step.term.empty());
    CHECK(step.fresh == music::read_notes("B4"));
    REQUIRE(step.tunes.size() == 1);
    CHECK(step.tunes[0].title == "Rope");
    CHECK(step.sheets.size() == 1);
}
