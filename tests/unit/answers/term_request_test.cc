#include "answers/term_request.h"

#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "answers/stored_request.h"
#include "support/collected.h"

namespace {

using answers::TermRequest;

const std::string kTermTunes =
    "X:1\nT:Lamp\nM:4/4\nL:1/8\nK:D\nDEFA d4|]\n\nX:2\nT:Rope by Lamp\nM:4/4\nL:1/8\nK:D\nDEFA d4|]\n";

collection::Memory with_two_players() {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", std::nullopt, music::read_notes("D4 E4")};
    kept.players[2] = {"Uli", "uli", std::nullopt, music::read_notes("D4 A4")};
    return support::collected(kTermTunes, kept);
}

TermRequest term(const char* from) {
    TermRequest request;
    request.from = base::read_date(from);
    request.lessons = 8;
    request.filter.players = {"Ina", "Uli"};
    return request;
}

std::string shown(const TermRequest& request) { return answers::write_request(request); }

}  // namespace

TEST_CASE("term request: again from another day, days move along and breaks do not", "[answers][term_request]") {
    TermRequest before = term("2027-01-12");
    before.breaks = {syllabus::read_break("2027-02-16")};
    before.musts = {{"1", base::read_date("2027-01-26")}, {"2", std::nullopt, 3}};
    const TermRequest again = answers::again_from(before, base::read_date("2027-04-13"), {});
    CHECK(
        shown(again) ==
        R"({"from":"2027-04-13","lessons":8,"musts":[{"tune":"1","by_date":"2027-04-27"},{"tune":"2","by_lesson":3}],)"
        R"("players":["Ina","Uli"]})");
}

TEST_CASE("term request: again, what is asked for besides stands in its place, and notes for players",
          "[answers][term_request]") {
    TermRequest besides;
    besides.have = "D4";
    besides.lessons = 3;
    besides.filter.columns.rhythm = "jig";
    const TermRequest again = answers::again_from(term("2027-01-12"), base::read_date("2027-04-13"), besides);
    CHECK(shown(again) == R"({"from":"2027-04-13","lessons":3,"have":"D4","rhythm":"jig"})");
}

TEST_CASE("term request: tunes are kept by their ids, players' notes as they are now", "[answers][term_request]") {
    TermRequest request = term("2027-01-12");
    request.have = "@Ina A4";
    request.filter.fits = {"Olli=D5 -@Uli"};
    request.musts = {{"lamp", base::read_date("2027-01-26")}};
    request.begin = {"Rope"};
    const TermRequest kept = answers::with_ids(request, with_two_players());
    CHECK(kept.have == "D4 E4 A4");
    CHECK(kept.filter.fits == std::vector<std::string>{"Olli=D5 -D4 -A4"});
    CHECK(kept.musts[0].tune == "1");
    CHECK(kept.begin == std::vector<std::string>{"2"});
    CHECK(answers::tunes_named_in(kept) == std::vector<tune::TuneId>{{1}, {2}});
}

TEST_CASE("term request: a day that is none is told, a title with \"by\" in it is one", "[answers][term_request]") {
    TermRequest request = term("2027-01-12");
    request.musts = {{"Rope by Lamp"}};
    CHECK(answers::with_ids(request, with_two_players()).musts[0].tune == "2");
    request.musts = {{"Lamp by Easter"}};
    try {
        answers::with_ids(request, with_two_players());
        FAIL("it was understood");
    } catch (const answers::Refused& refused) {
        CHECK(refused.refusal().reason == answers::Reason::no_such_day);
        CHECK(refused.refusal().others == std::vector<std::string>{"Easter"});
    }
}

TEST_CASE("term request: it goes on without players who are gone, and with their notes when nobody is left",
          "[answers][term_request]") {
    TermRequest request = term("2027-01-12");
    request.filter.players = {"Ina", "Nobody"};
    request.filter.state = answers::StateAsked::none;
    std::vector<answers::Gone> gone;
    TermRequest left = answers::for_those_left(request, with_two_players(), {}, gone);
    CHECK(left.filter.players == std::vector<std::string>{"Ina"});
    CHECK(left.filter.state.has_value());
    REQUIRE(gone.size() == 1);
    CHECK(gone[0].player == "Nobody");
    gone.clear();
    request.filter.players = {"Nobody"};
    left = answers::for_those_left(request, with_two_players(), music::read_notes("D4 A4"), gone);
    CHECK(left.have == "D4 A4");
    CHECK_FALSE(left.filter.state.has_value());
    CHECK(gone.size() == 2);
}

TEST_CASE("term request: another name, and none at all", "[answers][term_request]") {
    TermRequest request = term("2027-01-12");
    request.filter.columns.tag = "for Ina";
    const tune::PlayerName ina = tune::read_player_name("Ina");
    CHECK(answers::with_renamed(request, ina, "Inka").filter.players == std::vector<std::string>{"Inka", "Uli"});
    CHECK(answers::with_renamed(request, ina, "Inka").filter.columns.tag == "for Ina");
    const std::string erased = shown(answers::with_unnamed(request, ina));
    CHECK(erased.find("Ina") == std::string::npos);
    CHECK(erased.find("Uli") != std::string::npos);
    request.have = "G:major";
    request.filter.fits = {"Ina on whistle-d=D4"};
    CHECK(answers::with_unnamed(request, tune::read_player_name("G")).have == "G:major");
    CHECK(answers::with_unnamed(request, ina).filter.fits.front() == "a removed player on whistle-d=D4");
}
