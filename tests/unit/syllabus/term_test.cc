#include "syllabus/term.h"

#include <catch2/catch.hpp>

using base::read_date;
using syllabus::lesson_dates;
using syllabus::TermDates;

namespace {

std::vector<std::string> written(const std::vector<base::Date>& dates) {
    std::vector<std::string> texts;
    for (const base::Date date : dates) texts.push_back(base::to_string(date));
    return texts;
}

TermDates term(const char* from, int lessons) { return {read_date(from), std::nullopt, lessons, {}}; }

std::string fault_of(const TermDates& dates) {
    try {
        lesson_dates(dates);
    } catch (const syllabus::TermFault& fault) {
        return fault.what();
    }
    return "";
}

}  // namespace

TEST_CASE("term: one lesson a week, none in a break, as many as asked for", "[syllabus]") {
    TermDates dates = term("2027-01-12", 8);
    dates.breaks = {syllabus::read_break("2027-02-16")};
    CHECK(written(lesson_dates(dates)) == std::vector<std::string>{"2027-01-12", "2027-01-19", "2027-01-26",
                                                                   "2027-02-02", "2027-02-09", "2027-02-23",
                                                                   "2027-03-02", "2027-03-09"});
}

TEST_CASE("term: it begins on the first such weekday from the day given", "[syllabus]") {
    TermDates dates = term("2027-01-13", 2);  // a Wednesday
    dates.on = std::chrono::Tuesday;
    CHECK(written(lesson_dates(dates)) == std::vector<std::string>{"2027-01-19", "2027-01-26"});
    dates.on = std::chrono::Wednesday;
    CHECK(written(lesson_dates(dates)) == std::vector<std::string>{"2027-01-13", "2027-01-20"});
    dates.on = std::nullopt;
    CHECK(lesson_dates(dates).front() == dates.from);
}

TEST_CASE("term: weeks run on through the end of February and of the year", "[syllabus]") {
    CHECK(written(lesson_dates(term("2028-02-22", 3))) ==
          std::vector<std::string>{"2028-02-22", "2028-02-29", "2028-03-07"});
    CHECK(written(lesson_dates(term("2027-12-28", 2))) == std::vector<std::string>{"2027-12-28", "2028-01-04"});
}

TEST_CASE("term: breaks of several days, both ends included", "[syllabus]") {
    TermDates dates = term("2027-01-12", 3);
    dates.breaks = {syllabus::read_break("2027-01-19..2027-02-02")};
    CHECK(written(lesson_dates(dates)) == std::vector<std::string>{"2027-01-12", "2027-02-09", "2027-02-16"});
    dates.breaks = {syllabus::read_break("2027-01-01..2027-01-12")};  // it begins before the term
    CHECK(lesson_dates(dates).front() == read_date("2027-01-19"));
}

TEST_CASE("term: what makes no term is refused in one sentence", "[syllabus]") {
    CHECK_THAT(fault_of(term("2027-01-12", 0)), Catch::Contains("from 1 to 200 lessons, not 0"));
    CHECK_THAT(fault_of(term("2027-01-12", 201)), Catch::Contains("not 201"));
    CHECK_THAT(fault_of(term("9999-12-25", 3)), Catch::Contains("9999"));
    for (const char* outside : {"2027-01-11", "2027-01-27", "2026-12-01..2027-01-11"}) {
        TermDates dates = term("2027-01-12", 3);
        dates.breaks = {syllabus::read_break(outside)};
        CHECK_THAT(fault_of(dates), Catch::Contains("outside the term, which runs from 2027-01-12 to 2027-01-26"));
    }
    for (const char* wrong : {"2027-02-30", "..", "2027-01-02..2027-01-01", "", "soon", "2027-01-01...2027-01-02"})
        CHECK_THROWS_AS(syllabus::read_break(wrong), syllabus::TermFault);
}
