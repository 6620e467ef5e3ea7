#include "answers/term_names.h"

#include <catch2/catch.hpp>

#include "answers/stored_request.h"
#include "answers/term_request.h"
#include "syllabus/stored_syllabus.h"

namespace {

syllabus::Syllabus named() {
    answers::TermRequest request;
    request.from = base::read_date("2027-01-12");
    request.filter.players = {"Ina", "Uli"};
    syllabus::Syllabus plan;
    plan.name = "Ours";
    plan.planned_on = base::read_date("2026-12-01");
    plan.asked = answers::write_request(request);
    plan.lessons.push_back({base::read_date("2027-01-12"), {}, false, syllabus::NewNotes{{}, 2, {"Ina"}}, {}, {}});
    plan.remarks = {syllabus::KnownToSome{"Ina's Lamp", 1, {"Uli", "Ina"}},
                    syllabus::InWords{"\"Lamp\" in lesson 1: Ina and Inatol know it."}};
    return plan;
}

}  // namespace

TEST_CASE("term names: another name stands wherever a player is named, and titles stay", "[answers][term_names]") {
    const std::string text = syllabus::write_stored(named());
    const syllabus::Syllabus renamed =
        syllabus::read_stored(answers::renamed_in_term(text, tune::read_player_name("Ina"), "Olli"));
    CHECK(answers::read_request(renamed.asked).filter.players == std::vector<std::string>{"Olli", "Uli"});
    CHECK(renamed.lessons[0].notes->learners == std::vector<std::string>{"Olli"});
    CHECK(renamed.remarks[0] == syllabus::Telling(syllabus::KnownToSome{"Ina's Lamp", 1, {"Uli", "Olli"}}));
    CHECK(renamed.remarks[1] == syllabus::Telling(syllabus::InWords{"\"Lamp\" in lesson 1: Olli and Inatol know it."}));
}

TEST_CASE("term names: nobody else's term changes, nor one that is damaged", "[answers][term_names]") {
    const std::string text = syllabus::write_stored(named());
    CHECK(answers::renamed_in_term(text, tune::read_player_name("Bob"), "Rob") == text);
    CHECK(answers::unnamed_in_term(text, tune::read_player_name("Bob")) == text);
    CHECK(answers::renamed_in_term("{}", tune::read_player_name("Ina"), "Olli") == "{}");
}

TEST_CASE("term names: who was removed is named nowhere", "[answers][term_names]") {
    const std::string text = answers::unnamed_in_term(syllabus::write_stored(named()), tune::read_player_name("Uli"));
    CHECK(text.find("Uli") == std::string::npos);
    CHECK(text.find(answers::kRemovedPlayer) != std::string::npos);
}
