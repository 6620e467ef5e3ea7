#include "syllabus/returns.h"

#include <catch2/catch.hpp>

#include "lessons.h"

namespace {

std::vector<std::string> again(const std::vector<syllabus::Lesson>& made) {
    std::vector<std::string> titles;
    for (const syllabus::Lesson& lesson : made) titles.push_back(lessons::titles(lesson.again));
    return titles;
}

}  // namespace

TEST_CASE("returns: the next lesson, and again three weeks after the first, or two where the term ends", "[syllabus]") {
    auto made = lessons::weekly({"2027-01-12", "2027-01-19", "2027-01-26", "2027-02-02", "2027-02-09"});
    CHECK(syllabus::plan_returns(made, 0).empty());
    CHECK(again(made) == std::vector<std::string>{"", "A", "B", "AC", "BCD"});
}

TEST_CASE("returns: a week left out moves both; one that comes late is told", "[syllabus]") {
    auto made = lessons::weekly({"2027-01-12", "2027-01-19", "2027-02-16", "2027-02-23"});
    const auto told = syllabus::plan_returns(made, 0);
    CHECK(again(made) == std::vector<std::string>{"", "A", "AB", "BC"});
    REQUIRE(told.size() == 1);  // B came back the first time when it would have come the second
    CHECK(told[0] == syllabus::Telling(syllabus::ReturnsLate{"A", 35}));
}

TEST_CASE("returns: lost lessons are no lessons, and lessons that stand are left alone", "[syllabus]") {
    auto made = lessons::weekly({"2027-01-12", "2027-01-19", "2027-01-26", "2027-02-02"});
    made[1].state = syllabus::LessonState::lost;
    made[1].tunes.clear();
    made[0].again.push_back(lessons::tune(9, "Z"));
    syllabus::plan_returns(made, 1);
    CHECK(again(made) == std::vector<std::string>{"Z", "", "A", "AC"});
}

TEST_CASE("returns: several lessons in a week: the second return still waits two weeks", "[syllabus]") {
    auto made = lessons::weekly({"2027-01-12", "2027-01-14", "2027-01-19", "2027-01-26", "2027-02-02"});
    syllabus::plan_returns(made, 0);
    CHECK(again(made) == std::vector<std::string>{"", "A", "B", "C", "ABCD"});
}

TEST_CASE("returns: the lesson of a second return is lost: the tune comes in the next one", "[syllabus]") {
    auto made = lessons::weekly({"2027-01-12", "2027-01-19", "2027-01-26", "2027-02-02", "2027-02-09", "2027-02-16"});
    syllabus::plan_returns(made, 0);
    REQUIRE(again(made) == std::vector<std::string>{"", "A", "B", "AC", "BD", "CDE"});
    made[3].state = syllabus::LessonState::lost;
    made[3].tunes.clear();
    made[3].again.clear();
    const auto told = syllabus::plan_returns(made, 4);
    CHECK(again(made) == std::vector<std::string>{"", "A", "B", "", "ABC", "CE"});
    REQUIRE(told.size() == 1);
    CHECK(told[0] == syllabus::Telling(syllabus::ReturnsLate{"A", 28}));
}

TEST_CASE("returns: what came back in a lesson that stands does not come a third time", "[syllabus]") {
    auto made = lessons::weekly({"2027-01-12", "2027-01-19", "2027-01-26", "2027-02-02", "2027-02-09"});
    made[1].again.push_back(made[0].tunes[0]);
    made[2].again = {made[0].tunes[0], made[1].tunes[0]};  // A in its third week
    syllabus::plan_returns(made, 3);
    CHECK(again(made) == std::vector<std::string>{"", "A", "AB", "C", "BCD"});
}
