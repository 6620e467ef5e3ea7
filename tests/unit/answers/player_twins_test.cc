#include "answers/player_twins.h"

#include <catch2/catch.hpp>

#include "answers/learning.h"
#include "support/collected.h"

namespace {

const std::string kThreeTunes =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGEF|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GF G4:|\n\n"
    "X:2\nT:Lantern\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGED|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GA G4:|\n\n"
    "X:3\nT:Net\nR:reel\nM:4/4\nL:1/8\nK:D\n|:d2fd Adfd|efge a2fe|dBAF DFAd|BcdB A2FA:|"
    "|:D2FA dAFA|Bcde f2ed|cABc defg|a2ge d4:|\n";

// Ina knows Lamp.
people::Kept ina_knows_lamp() {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", std::nullopt, std::nullopt};
    kept.events[1] = {1, 1, {base::read_date("2026-11-02"), tune::PlayerEvent::known}, std::nullopt};
    return kept;
}

std::optional<tune::TuneId> twin_of(const collection::Memory& memory, std::int64_t tune) {
    const auto ina = memory.player_named("Ina");
    const answers::Learning learning = answers::learning_of(memory, *ina, {}, {*memory.tune_by_id({tune})});
    return answers::PlayerTwins(memory, *ina).twin_of(learning.matters.at(0), {});
}

}  // namespace

TEST_CASE("player's twins: a tune that is probably one the player has", "[answers][player-twins]") {
    const collection::Memory memory = support::collected(kThreeTunes, ina_knows_lamp());
    CHECK(twin_of(memory, 2) == tune::TuneId{1});
    CHECK(twin_of(memory, 3) == std::nullopt);
}

TEST_CASE("player's twins: two tunes, where a person said so", "[answers][player-twins]") {
    people::Kept kept = ina_knows_lamp();
    kept.verdicts[{1, 2}] = {false, 2};
    CHECK(twin_of(support::collected(kThreeTunes, kept), 2) == std::nullopt);
}

TEST_CASE("player's twins: a tune of the same title and rhythm, until a person says that it is another",
          "[answers][player-twins]") {
    const std::string more = std::string(kThreeTunes) +
                             "\nX:4\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:D\n|:d2fd Adfd|efge a2fe|dBAF DFAd|BcdB A2FA:|\n"
                             "\nX:5\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:D\n|:dfd Adf|efg afe|dBA DFA|BcB A2F:|\n";
    const collection::Memory memory = support::collected(more, ina_knows_lamp());
    CHECK(twin_of(memory, 4) == tune::TuneId{1});
    CHECK(twin_of(memory, 5) == std::nullopt);  // a jig
    people::Kept kept = ina_knows_lamp();
    kept.verdicts[{1, 4}] = {false, 2};
    CHECK(twin_of(support::collected(more, kept), 4) == std::nullopt);
}
