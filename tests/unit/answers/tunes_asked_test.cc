#include "answers/tunes_asked.h"

#include <catch2/catch.hpp>

#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::Part;
using answers::Reason;

const std::string kAskedTunes =
    "X:1\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:G\nG2B dBG|A2c ecA|]\n\n"
    "X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\nD2FA dAFA|]\n\n"
    "X:3\nT:Silence\nM:4/4\nL:1/8\nK:D\nz8|]\n";

people::Kept two_players() {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "whistle-d", music::read_notes("D4 E4 F#4 G4 A4 B4 D5")};
    kept.players[2] = {"Uli", "uli", std::nullopt, music::read_notes("G4 A4 B4 C5 D5 E5")};
    kept.events[1] = {1, 2, {base::read_date("2026-11-02"), tune::PlayerEvent::known}, std::nullopt};
    kept.events[2] = {2, 2, {base::read_date("2026-11-03"), tune::PlayerEvent::learning}, std::nullopt};
    return kept;
}

std::shared_ptr<const instruments::Instrument> given_instrument(const char* id) {
    return {std::shared_ptr<void>(), instruments::find(id)};
}

}  // namespace

TEST_CASE("tunes asked: players share what all of them have", "[answers][tunes_asked]") {
    const collection::Memory memory = support::collected(kAskedTunes, two_players());
    answers::Filter filter;
    filter.players = {"ina", "uli"};
    const answers::TunesAsked asked(memory, filter);
    CHECK(asked.have_of_players() == music::read_notes("G4 A4 B4 D5"));
    CHECK(asked.selection().fits == music::read_notes("G4 A4 B4 D5"));
    CHECK(asked.selection_to_learn().fits == instruments::find("whistle-d")->note_set());
    CHECK(asked.settled_for_players() == std::vector<tune::TuneId>{{2}});
    REQUIRE(asked.known_by_players().size() == 1);
    CHECK(asked.known_by_players()[0].second == std::vector<std::string>{"Ina", "Uli"});
    CHECK(asked.reach().players == 2);
}

TEST_CASE("tunes asked: a class stands for its members", "[answers][tunes_asked]") {
    people::Kept kept = two_players();
    kept.classes["mondays"] = {"Mondays", {1, 2}};
    const collection::Memory memory = support::collected(kAskedTunes, kept);
    answers::Filter filter;
    filter.players = {"Mondays", "Ina"};
    const answers::TunesAsked asked(memory, filter);
    CHECK(asked.players().size() == 2);
    CHECK(asked.have_of_players() == music::read_notes("G4 A4 B4 D5"));
}

TEST_CASE("tunes asked: an instrument filters, unless the question has another use for it", "[answers][tunes_asked]") {
    const collection::Memory memory = support::collected(kAskedTunes);
    answers::Filter filter;
    filter.instrument = given_instrument("whistle-d");
    const answers::TunesAsked asked(memory, filter);
    CHECK(asked.selection().fits == filter.instrument->note_set());
    CHECK_FALSE(asked.selection(false).fits.has_value());
    filter.missing = answers::Lacking{2};
    CHECK(asked.selection().missing->at_most == 2);
    CHECK(support::refusal_of([&] { asked.selection(false); }).reason == Reason::lacking_which);
}

TEST_CASE("tunes asked: a grade is one of somebody's instrument", "[answers][tunes_asked]") {
    const collection::Memory memory = support::collected(kAskedTunes, two_players());
    answers::Filter filter;
    filter.grade = 1;
    CHECK(support::refusal_of([&] { answers::TunesAsked(memory, filter).instrument(); }).reason ==
          Reason::grade_of_which);
    filter.asker = "Ina";
    CHECK(answers::TunesAsked(memory, filter).instrument()->note_set() ==
          instruments::find("whistle-d")->up_to_grade(1).note_set());
    filter.players = {"Ina", "Uli"};
    CHECK(answers::TunesAsked(memory, filter).instrument() == nullptr);
}

TEST_CASE("tunes asked: a state is somebody's", "[answers][tunes_asked]") {
    const collection::Memory memory = support::collected(kAskedTunes, two_players());
    answers::Filter filter;
    filter.state = answers::StateAsked::known;
    CHECK(support::refusal_of([&] { answers::TunesAsked(memory, filter).selection(); }).reason == Reason::which_player);
    filter.players = {"Ina"};
    CHECK(answers::TunesAsked(memory, filter).selection_without_notes().state->tunes == std::vector<tune::TuneId>{{2}});
    filter.players = {"Uli"};
    CHECK(answers::TunesAsked(memory, filter).selection_without_notes().state->tunes.empty());
    filter.state = answers::StateAsked::none;
    const auto choice = answers::TunesAsked(memory, filter).selection_without_notes().state;
    filter.players = {"Ina", "Uli"};
    CHECK(answers::TunesAsked(memory, filter).selection_without_notes().state->tunes == std::vector<tune::TuneId>{{2}});
    filter.state = answers::StateAsked::known;  // of both
    CHECK(answers::TunesAsked(memory, filter).selection_without_notes().state->tunes.empty());
    CHECK(choice->is_left_out);
    CHECK(choice->tunes == std::vector<tune::TuneId>{{2}});
    filter.players.clear();
    CHECK(support::refusal_of([&] {
              answers::TunesAsked(support::collected(kAskedTunes), filter).selection();
          }).reason == Reason::no_players);
}

TEST_CASE("tunes asked: what is said of the filters names notes as they were given", "[answers][tunes_asked]") {
    const collection::Memory memory = support::collected(kAskedTunes, two_players());
    answers::Filter filter;
    filter.players = {"Uli"};
    filter.columns.rhythm = "reel";
    const answers::TunesAsked asked(memory, filter);
    const auto sieves = asked.sieves_of(memory.select_tunes(asked.selection()));
    REQUIRE(sieves.size() == 2);
    CHECK(sieves[0].filter == "for");
    CHECK(sieves[0].fails == 1);
    CHECK(sieves[1].filter == "rhythm");
}

TEST_CASE("tunes asked: players and an instrument both count, and so does a grade of theirs",
          "[answers][tunes_asked]") {
    const collection::Memory memory = support::collected(kAskedTunes, two_players());
    answers::Filter filter;
    filter.players = {"Uli"};
    filter.instrument = given_instrument("whistle-d");
    CHECK(answers::TunesAsked(memory, filter).selection().fits ==
          (music::read_notes("G4 A4 B4 C5 D5 E5") & instruments::find("whistle-d")->note_set()));
    filter.instrument.reset();
    filter.players = {"Ina"};
    filter.grade = 1;
    CHECK(answers::TunesAsked(memory, filter).selection().fits ==
          (music::read_notes("D4 E4 F#4 G4 A4 B4 D5") & instruments::find("whistle-d")->up_to_grade(1).note_set()));
}

TEST_CASE("tunes asked: nothing in common is no question", "[answers][tunes_asked]") {
    const collection::Memory memory = support::collected(kAskedTunes);
    answers::Filter filter;
    filter.fits = {"D4", "E4"};
    CHECK(support::refusal_of([&] { answers::TunesAsked(memory, filter).selection(); }).part == Part::fits);
    filter.players = {"Ina"};
    CHECK(support::refusal_of([&] { answers::TunesAsked(memory, filter).selection(); }).reason == Reason::no_players);
}
