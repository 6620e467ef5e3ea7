#include "answers/learning.h"

#include <catch2/catch.hpp>

#include "instruments/known.h"
#include "support/collected.h"

namespace {

const std::string kJigAndReels =
    "X:1\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:G\n|:G2B dBG|A2c ecA|G2B dBd|e2d B2A:|\n\n"
    "X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\n|:D2FA dAFA|Bcde f2ed|cABc defg|a2ge d4:|\n\n"
    "X:3\nT:Silence\nR:reel\nM:4/4\nL:1/8\nK:D\nz8|z8|]\n";

people::Kept knows(std::initializer_list<std::pair<std::int64_t, const char*>> tunes) {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", std::nullopt, std::nullopt};
    std::int64_t rank = 0;
    for (const auto& [tune, day] : tunes)
        kept.events[++rank] = {1, tune, {base::read_date(day), tune::PlayerEvent::known}, std::nullopt};
    return kept;
}

answers::Learning learning(const collection::Memory& memory) {
    std::vector<tune::TuneRecord> records;
    for (const std::int64_t id : {1, 2, 3}) records.push_back(*memory.tune_by_id({id}));
    return answers::learning_of(memory, *memory.player_named("Ina"), {}, records);
}

}  // namespace

TEST_CASE("learning: bars, compass and last kinds of the tunes a player knows", "[answers][learning]") {
    const answers::Learning told =
        learning(support::collected(kJigAndReels, knows({{1, "2026-11-02"}, {2, "2026-11-09"}})));
    CHECK(told.learner.last_rhythms == std::vector<std::string>{"reel", "jig"});
    CHECK(told.learner.widest == 81 - 62);
    CHECK(told.records == std::vector<std::size_t>{0, 1});  // Silence has no note
    CHECK(told.matters.size() == 2);
}

TEST_CASE("learning: a day with several kinds says nothing of the order", "[answers][learning]") {
    const answers::Learning told =
        learning(support::collected(kJigAndReels, knows({{1, "2026-11-02"}, {2, "2026-11-02"}})));
    CHECK(told.learner.last_rhythms.empty());
}

TEST_CASE("learning: what the hand has to do needs music", "[answers][learning]") {
    const collection::Memory memory = support::collected(kJigAndReels);
    const instruments::Instrument& whistle = *instruments::find("whistle-d");
    CHECK(answers::hand_for_a_note(memory, {1}, whistle).has_value());
    CHECK_FALSE(answers::hand_for_a_note(memory, {3}, whistle).has_value());
    CHECK_FALSE(answers::hand_for_a_note(memory, {9}, whistle).has_value());
}
