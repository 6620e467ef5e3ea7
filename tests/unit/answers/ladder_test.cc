#include "answers/ladder.h"

#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::Reason;

const std::string kLadderTunes =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAF DFAF|EFAF E4|DFAF DFAF|EAFE D4:|\n\n"
    "X:2\nT:Stone\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAB AFDE|FABA F4|DFAB AFDE|FAFE D4:|\n\n"
    "X:3\nT:Top\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAB AFDE|FABA F4|defg a2fd|gfec d4:|\n\n"
    "X:4\nT:Cellar\nR:reel\nM:4/4\nL:1/8\nK:D\n|:A,DFA DFA2|EFAF E4|DFAF DFAF|EAFE D4:|\n\n"
    "X:5\nT:Silence\nM:4/4\nL:1/8\nK:D\nz8|]\n";

collection::Memory with_ina() {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "whistle-d", music::read_notes("D4 E4 F#4 A4")};
    kept.events[1] = {1, 1, {base::read_date("2026-11-02"), tune::PlayerEvent::known}, std::nullopt};
    return support::collected(kLadderTunes, kept);
}

answers::Refusal no_ladder(const std::string& towards) {
    return support::refusal_of([&] { answers::answer(with_ina(), answers::LadderQuestion{{}, "Ina", towards, {}}); });
}

}  // namespace

TEST_CASE("ladder: ends with the tune that was asked for, and no rung is known", "[answers][ladder]") {
    const answers::LadderAnswer answer = answers::answer(with_ina(), answers::LadderQuestion{{}, "Ina", "Top", {}});
    REQUIRE_FALSE(answer.records.empty());
    CHECK(answer.records.size() == answer.ladder.rungs.size());
    CHECK(tune::title_of(answer.records.back()) == "Top");
    for (const tune::TuneRecord& record : answer.records) CHECK(tune::title_of(record) != "Lamp");
}

TEST_CASE("ladder: the filter is for the stones alone", "[answers][ladder]") {
    answers::LadderQuestion question{{}, "Ina", "Top", {}};
    question.filter.columns.title = "Stone";
    const answers::LadderAnswer answer = answers::answer(with_ina(), question);
    CHECK(tune::title_of(answer.records.back()) == "Top");
}

TEST_CASE("ladder: what needs none, and what no ladder reaches", "[answers][ladder]") {
    CHECK(no_ladder("Lamp").reason == Reason::known_already);
    const answers::Refusal beyond = no_ladder("Cellar");
    CHECK(beyond.reason == Reason::out_of_reach);
    CHECK(beyond.notes == music::read_notes("A3"));
    CHECK(no_ladder("Silence").reason == Reason::nothing_in_it);
    CHECK(no_ladder("Nowhere").reason == Reason::unknown_tune);
}
