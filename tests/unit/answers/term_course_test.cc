#include "answers/term_course.h"

#include <catch2/catch.hpp>

#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::Reason;
using answers::TermRequest;

const std::string kCourseTunes =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAF DFAF|EFAF E4|DFAF DFAF|EAFE D4:|\n\n"
    "X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAB AFDE|FABA F4|DFAB AFDE|FAFE D4:|\n\n"
    "X:3\nT:Rope\nR:jig\nM:6/8\nL:1/8\nK:D\n|:DFA dfd|ege dBA|fdf edB|AFE D3:|\n\n"
    "X:4\nT:Crumb\nR:reel\nM:4/4\nL:1/8\nK:D\nDFAF D4|]\n\nX:5\nT:Silence\nM:4/4\nL:1/8\nK:D\nz8|]\n";

TermRequest asked_with(const char* have) {
    TermRequest request;
    request.from = base::read_date("2027-01-12");
    request.lessons = 4;
    request.have = have;
    return request;
}

answers::TermCourse course(const TermRequest& request, const people::Kept& kept = {},
                           const answers::TermSoFar& so_far = {}) {
    static std::vector<std::unique_ptr<collection::Memory>> memories;  // a course borrows its collection
    memories.push_back(std::make_unique<collection::Memory>(support::collected(kCourseTunes, kept)));
    return answers::course_of(*memories.back(), request, so_far);
}

answers::Refusal no_course(const TermRequest& request) {
    return support::refusal_of([&] { course(request); });
}

}  // namespace

TEST_CASE("term course: scraps and what has no note stay aside, of two of one title the easier may come",
          "[answers][term_course]") {
    const answers::TermCourse made = course(asked_with("D4 E4 F#4 A4"));
    CHECK(made.scraps == 1);
    REQUIRE(made.course.tunes.size() == 3);
    CHECK(made.course.tunes[0].tune.title == "Lamp");
    std::vector<bool> may_come;
    for (const syllabus::CourseTune& one : made.course.tunes) may_come.push_back(one.may_come);
    CHECK(std::count(may_come.begin(), may_come.end(), true) == 2);
    CHECK_FALSE(made.course.uses_of(0).empty());
}

TEST_CASE("term course: what players know is left out, what they wish for counts more", "[answers][term_course]") {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", std::nullopt, music::read_notes("D4 E4 F#4 A4")};
    kept.events[1] = {1, 1, {base::read_date("2026-11-02"), tune::PlayerEvent::known}, std::nullopt};
    kept.wishes.insert({1, 2});
    TermRequest request = asked_with("D4");
    request.have.reset();
    request.filter.players = {"Ina"};
    const answers::TermCourse made = course(request, kept);
    CHECK(made.known == 1);
    REQUIRE_FALSE(made.course.tunes.empty());
    const auto rope = std::find_if(made.course.tunes.begin(), made.course.tunes.end(),
                                   [](const auto& one) { return one.tune.id == tune::TuneId{2}; });
    REQUIRE(rope != made.course.tunes.end());
    CHECK(rope->asked_for == 1);
    answers::TermSoFar so_far;
    so_far.own[{1}] = syllabus::Promise::none;  // the term's own doing
    CHECK(course(request, kept, so_far).known == 0);
}

TEST_CASE("term course: a lesson that was lost takes its notes from those who were to learn them alone",
          "[answers][term_course]") {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", std::nullopt, music::read_notes("D4 E4 B4")};
    kept.players[2] = {"Uli", "uli", std::nullopt, music::read_notes("D4 E4 B4")};
    TermRequest request = asked_with("D4");
    request.have.reset();
    request.filter.players = {"Ina", "Uli"};
    answers::TermSoFar so_far;
    so_far.undone = {{music::read_notes("B4"), 0, {"Uli"}}};
    const auto players = course(request, kept, so_far).course.players;
    CHECK(players[0].have.has(71));
    CHECK_FALSE(players[1].have.has(71));
    so_far.undone = {{music::read_notes("B4"), 0, {}}};
    CHECK_FALSE(course(request, kept, so_far).course.players[0].have.has(71));
}

TEST_CASE("term course: a tune that must come comes whatever the filter says", "[answers][term_course]") {
    TermRequest request = asked_with("D4 E4 F#4 A4");
    request.filter.columns.rhythm = "jig";
    request.musts = {{"1", std::nullopt, 2}};
    request.begin = {"2"};
    const answers::TermCourse made = course(request);
    REQUIRE(made.course.musts.size() == 1);
    CHECK(made.course.musts[0].by_lesson == 2);
    CHECK(made.course.begin == std::vector<tune::TuneId>{{2}});
    CHECK(made.course.tunes.size() == 3);
}

TEST_CASE("term course: what is no term", "[answers][term_course]") {
    TermRequest request = asked_with("D4");
    request.filter.fits = {"E4"};
    CHECK(no_course(request).reason == Reason::have_or_players);
    request = asked_with("D4");
    request.have.reset();
    CHECK(no_course(request).reason == Reason::whose_notes);
    request = asked_with("D4");
    request.musts = {{"1", std::nullopt, 5}};
    CHECK(no_course(request).reason == Reason::beyond_term);
    request.musts = {{"1"}, {"1"}};
    CHECK(no_course(request).reason == Reason::named_twice);
    request.musts = {{"1"}};
    request.without = {"1"};
    CHECK(no_course(request).reason == Reason::left_out_and_wanted);
    request.musts = {{"5"}};
    CHECK(no_course(request).reason == Reason::no_note);
    request = asked_with("D4");
    request.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    request.first = "A3";
    const answers::Refusal refusal = no_course(request);
    CHECK(refusal.reason == Reason::not_for_everyone);
    CHECK(refusal.notes == music::read_notes("A3"));
}

TEST_CASE("term course: notes to begin with that are there already are told", "[answers][term_course]") {
    TermRequest request = asked_with("D4 E4");
    request.first = "E4 C5";
    const answers::TermCourse made = course(request);
    CHECK(made.had_of_first == music::read_notes("E4"));
    CHECK(made.course.first == std::vector<int>{64, 72});
}

TEST_CASE("term course: lessons are a week apart, and dates that make no term are refused", "[answers][term_course]") {
    TermRequest request = asked_with("D4");
    request.breaks = {syllabus::read_break("2027-01-19")};
    const auto lessons = answers::lessons_of(request);
    REQUIRE(lessons.size() == 4);
    CHECK(lessons[1].date == base::read_date("2027-01-26"));
    request.breaks = {syllabus::read_break("2031-01-19")};
    CHECK_THROWS_AS(answers::lessons_of(request), answers::Refused);
}
