#include "answers/term_change.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "answers/stored_request.h"
#include "music/note_expression.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::Reason;
using answers::TermNews;
using syllabus::LessonState;

// Six tunes of one range, told apart by their rhythm and one that needs a C#.
const std::string kSixTunes = [] {
    std::string abc;
    const char* const rhythms[] = {"reel", "jig", "polka", "waltz", "reel", "jig"};
    for (int at = 0; at < 6; ++at)
        abc += "X:" + std::to_string(at + 1) + "\nT:Tune " + std::string(1, static_cast<char>('A' + at)) +
               "\nR:" + rhythms[at] + "\nM:4/4\nL:1/8\nK:D\n|:DFAF DFAF|EFAF E4|DFAF DFA" + (at == 5 ? "c" : "B") +
               "|EAFE D4:|\n\n";
    return abc;
}();

people::Kept with_ina_kept() {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", std::nullopt, music::read_notes("D4 E4 F#4 A4 B4 C#5")};
    return kept;
}

answers::TermRequest five_lessons() {
    answers::TermRequest request;
    request.from = base::read_date("2027-01-12");
    request.lessons = 5;
    request.filter.players = {"Ina"};
    return request;
}

syllabus::Syllabus planned(const collection::Collection& collection, const answers::TermRequest& request) {
    answers::TermPlanned made = answers::plan_term(collection, request, answers::lessons_of(request), 0, {});
    REQUIRE(made.is_planned);
    made.plan.name = "Ours";
    made.plan.revision = 3;
    made.plan.asked = answers::write_request(request);
    return made.plan;
}

std::vector<std::string> new_titles(const syllabus::Syllabus& plan) {
    std::vector<std::string> titles;
    for (const syllabus::Lesson& lesson : plan.lessons)
        for (const syllabus::TermTune& tune : lesson.tunes) titles.push_back(tune.title);
    return titles;
}

}  // namespace

TEST_CASE("term change: lessons that were given are marked, and nothing is planned", "[answers][term_change]") {
    const collection::Memory memory = support::collected(kSixTunes, with_ina_kept());
    const syllabus::Syllabus kept = planned(memory, five_lessons());
    TermNews news;
    news.taught = 2;
    const answers::TermChanged changed = answers::change_term(memory, kept, five_lessons(), news);
    CHECK_FALSE(changed.is_planned);
    CHECK(changed.plan.revision == 3);
    CHECK(changed.plan.lessons[1].state == LessonState::taught);
    CHECK(changed.plan.lessons[2].state == LessonState::planned);
    CHECK(new_titles(changed.plan) == new_titles(kept));
}

TEST_CASE("term change: a lesson that counts as given is taken back by who is sure alone", "[answers][term_change]") {
    const collection::Memory memory = support::collected(kSixTunes, with_ina_kept());
    syllabus::Syllabus kept = planned(memory, five_lessons());
    kept.lessons[0].state = kept.lessons[1].state = LessonState::taught;
    TermNews fewer;
    fewer.taught = 1;
    TermNews lost;
    lost.lost = {{1, 1}};
    for (TermNews news : {fewer, lost}) {
        const answers::Refusal refusal =
            support::refusal_of([&] { answers::change_term(memory, kept, five_lessons(), news); });
        CHECK(refusal.reason == Reason::lesson_given);
        CHECK(refusal.what == "2");
        CHECK(refusal.part == (news.lost.empty() ? answers::Part::taught : answers::Part::lost));
        news.is_sure = true;
        const answers::TermChanged changed = answers::change_term(memory, kept, five_lessons(), news);
        CHECK(changed.plan.lessons[1].state != LessonState::taught);
        CHECK(changed.plan.lessons[0].state == LessonState::taught);
    }
}

TEST_CASE("term change: what a lost lesson held moves on, and what stands before it stays", "[answers][term_change]") {
    const collection::Memory memory = support::collected(kSixTunes, with_ina_kept());
    const syllabus::Syllabus kept = planned(memory, five_lessons());
    REQUIRE(kept.lessons[1].tunes.size() == 1);
    TermNews news;
    news.lost = {{1, 1}};
    const answers::TermChanged changed = answers::change_term(memory, kept, five_lessons(), news);
    CHECK(changed.is_planned);
    CHECK(changed.plan.name == "Ours");
    CHECK(changed.plan.lessons[0] == kept.lessons[0]);
    CHECK(changed.plan.lessons[1].state == LessonState::lost);
    CHECK(changed.plan.lessons[1].tunes.empty());
    const auto titles = new_titles(changed.plan);
    CHECK(std::count(titles.begin(), titles.end(), kept.lessons[1].tunes[0].title) == 1);
    // Said once more it changes nothing, and nothing is planned.
    const answers::TermChanged again = answers::change_term(memory, changed.plan, five_lessons(), news);
    CHECK_FALSE(again.is_planned);
    CHECK(again.plan == changed.plan);
}

TEST_CASE("term change: a player who is gone is told, and the notes at the start stand in the place",
          "[answers][term_change]") {
    const syllabus::Syllabus kept = planned(support::collected(kSixTunes, with_ina_kept()), five_lessons());
    const collection::Memory without = support::collected(kSixTunes);
    TermNews news;
    news.replans = true;
    const answers::TermChanged changed = answers::change_term(without, kept, five_lessons(), news);
    REQUIRE(changed.gone.size() == 1);
    CHECK(changed.gone[0].player == "Ina");
    const answers::TermRequest asked = answers::read_request(changed.plan.asked);
    CHECK(asked.filter.players.empty());
    CHECK(music::read_notes(asked.have.value_or("")) == kept.have);
}

TEST_CASE("term change: notes that everyone has learnt meanwhile are told, and the start stays as it was",
          "[answers][term_change]") {
    people::Kept before = with_ina_kept();
    before.players[1].notes = music::read_notes("D4 E4 F#4 A4 B4");
    answers::TermRequest request = five_lessons();
    request.steps = 0;  // no lesson brings it
    const syllabus::Syllabus kept = planned(support::collected(kSixTunes, before), request);
    const collection::Memory now = support::collected(kSixTunes, with_ina_kept());
    TermNews news;
    news.taught = 1;
    news.lost = {{1, 1}};
    const answers::TermChanged changed = answers::change_term(now, kept, request, news);
    CHECK(changed.plan.have == kept.have);
    const syllabus::Telling learnt = syllabus::LearntSince{music::read_notes("C#5")};
    CHECK(std::count(changed.plan.remarks.begin(), changed.plan.remarks.end(), learnt) == 1);
}

TEST_CASE("term change: no tune that can come is no plan; notes to begin with may contradict themselves",
          "[answers][term_change]") {
    const collection::Memory memory = support::collected(kSixTunes, with_ina_kept());
    answers::TermRequest request = five_lessons();
    request.filter.columns.rhythm = "mazurka";
    CHECK_FALSE(answers::plan_term(memory, request, answers::lessons_of(request), 0, {}).is_planned);
    request = five_lessons();
    request.first = "G5 G5";
    const answers::Refusal refusal =
        support::refusal_of([&] { answers::plan_term(memory, request, answers::lessons_of(request), 0, {}); });
    REQUIRE(refusal.goal);
    CHECK(*refusal.goal == planner::Fault(planner::WrongFirst{79, planner::WrongFirst::Why::twice}));
}

TEST_CASE("term change: players are told of what was given and does not stand with them", "[answers][term_change]") {
    people::Kept kept = with_ina_kept();
    kept.players[2] = {"Uli", "uli", std::nullopt, {}};
    const collection::Memory memory = support::collected(kSixTunes, kept);
    syllabus::Syllabus plan = planned(memory, five_lessons());
    CHECK(answers::to_be_told(memory, plan).begun.empty());
    plan.lessons[0].state = LessonState::taught;
    plan.lessons[0].notes = syllabus::NewNotes{music::read_notes("G4"), 1, {}};
    REQUIRE(plan.lessons[0].tunes.size() == 1);
    const tune::TuneId tune = plan.lessons[0].tunes[0].id;
    const answers::ToBeTold told = answers::to_be_told(memory, plan);
    CHECK(told.begun == std::vector<answers::ToBeTold::Begun>{{{1}, tune, plan.lessons[0].date}});
    REQUIRE(told.notes.size() == 1);  // Uli is no player of the term
    CHECK(told.notes.at({1}) == music::read_notes("G4"));
    kept.events[1] = {1, tune.value, {plan.lessons[0].date, tune::PlayerEvent::learning}, std::nullopt};
    CHECK(answers::to_be_told(support::collected(kSixTunes, kept), plan).begun.empty());
}
