#include "answers/player_named.h"

#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::Reason;

const std::string kTwoTunes =
    "X:1\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:G\nG2B dBG|A2c ecA|]\n\n"
    "X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\nD2FA dAFA|]\n";

people::Kept with_player(people::Kept kept, std::int64_t id, const char* name, const char* folded,
                         std::optional<std::string> instrument = std::nullopt,
                         std::optional<music::NoteSet> notes = {}) {
    kept.players[id] = {name, folded, std::move(instrument), std::move(notes)};
    return kept;
}

Reason no_player(const collection::Memory& memory, const std::string& name) {
    return support::refusal_of([&] { answers::some_notes_of(memory, answers::player_named(memory, name)); }).reason;
}

}  // namespace

TEST_CASE("player named: in any case, or told who there is", "[answers][player_named]") {
    const collection::Memory memory = support::collected(kTwoTunes, with_player({}, 1, "Ina", "ina"));
    CHECK(answers::player_named(memory, "INA").player.name.text == "Ina");
    CHECK(no_player(memory, "Uli") == Reason::unknown_player);
    CHECK(no_player(support::collected(kTwoTunes), "Ina") == Reason::no_players);
}

TEST_CASE("player named: notes are what was said and what the known tunes need", "[answers][player_named]") {
    people::Kept kept = with_player({}, 1, "Ina", "ina", std::nullopt, music::read_notes("A3"));
    kept.events[1] = {1, 1, {base::read_date("2026-11-02"), tune::PlayerEvent::known}, std::nullopt};
    const collection::Memory memory = support::collected(kTwoTunes, kept);
    const auto ina = answers::player_named(memory, "Ina");
    CHECK(answers::notes_of(memory, ina) == music::read_notes("A3 G4 A4 B4 C5 D5 E5"));
    CHECK(answers::names_in(memory)("ina") == answers::notes_of(memory, ina));
    CHECK_FALSE(answers::names_in(memory)("nobody").has_value());
}

TEST_CASE("player named: an instrument takes away what it has not, a strange one nothing", "[answers][player_named]") {
    const music::NoteSet said = music::read_notes("A3 D4 E4");
    const collection::Memory memory = support::collected(
        kTwoTunes, with_player(with_player({}, 1, "Ina", "ina", "whistle-d", said), 2, "Uli", "uli", "serpent", said));
    CHECK(answers::notes_of(memory, answers::player_named(memory, "Ina")) == music::read_notes("D4 E4"));
    CHECK(answers::notes_of(memory, answers::player_named(memory, "Uli")) == said);
    CHECK(no_player(memory, "Uli") == Reason::strange_instrument);
}

TEST_CASE("player named: without any note there is nothing to go by", "[answers][player_named]") {
    CHECK(no_player(support::collected(kTwoTunes, with_player({}, 1, "Ina", "ina")), "Ina") == Reason::no_notes_yet);
}

TEST_CASE("player named: a class means its members, each once, unless a player has its name",
          "[answers][player_named]") {
    people::Kept kept = with_player({}, 1, "Ina", "ina", std::nullopt, music::read_notes("D4 E4 G4"));
    kept = with_player(kept, 2, "Uli", "uli", std::nullopt, music::read_notes("E4 G4 A4"));
    kept = with_player(kept, 3, "Olli", "olli", std::nullopt, music::read_notes("C6"));
    kept.classes["mondays"] = {"Mondays", {1, 2}};
    kept.classes["olli"] = {"Olli", {1}};
    kept.classes["all"] = {"All", {1, 3}};
    const collection::Memory memory = support::collected(kTwoTunes, kept);
    const answers::PlayersMeant meant = answers::players_meant(memory, {"uli", "MONDAYS", "olli", "Nobody"});
    CHECK(meant.names == std::vector<std::string>{"uli", "Ina", "olli", "Nobody"});
    REQUIRE(meant.classes.size() == 1);
    CHECK(meant.classes[0] == collection::PlayerClass{{"Mondays", "mondays"}, {"Ina", "Uli"}});
    const answers::Refusal refusal = support::refusal_of([&] { answers::player_named(memory, "mondays"); });
    CHECK(refusal.reason == Reason::one_of_class);
    CHECK(refusal.others == std::vector<std::string>{"Ina", "Uli"});
    CHECK(answers::names_in(memory)("Mondays") == music::read_notes("E4 G4"));
    CHECK(answers::names_in(memory)("olli") == music::read_notes("C6"));
    CHECK(support::refusal_of([&] { answers::names_in(memory)("all"); }).reason == Reason::no_note_in_common);
}
