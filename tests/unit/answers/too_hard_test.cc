#include "answers/too_hard.h"

#include <catch2/catch.hpp>

#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::CanPlay;
using answers::Reason;

const std::string kTunesOfHardness =
    "X:1\nT:Plain\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAF DFAF|EFAF E4|DFAF DFAF|EAFE D4:|\n\n"
    "X:2\nT:Harder Known\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAB AFDE|FABA F4|AFDA BAFA|FAFE D4:|\n\n"
    "X:3\nT:Plain Too\nR:reel\nM:4/4\nL:1/8\nK:D\n|:AFDF AFDF|AFEF A4|AFDF AFDF|EAFE D4:|\n\n"
    "X:4\nT:Leaps\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DBDB DBDB|BDBD E4|DBEB FBDB|BDBE D4|FBFD BDBD|EBEB D2B2:|\n\n"
    "X:5\nT:New Notes\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAd fdAF|efed d4|DFAd fdAF|EAFE D4:|\n\n"
    "X:6\nT:Cellar\nR:reel\nM:4/4\nL:1/8\nK:D\n|:A,DFA DFA2|EFAF E4:|\n\n"
    "X:7\nT:Silence\nM:4/4\nL:1/8\nK:D\nz8|]\n";

collection::Memory library_of_ina(bool knows = true) {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "whistle-d", music::read_notes("D4 E4 F#4 A4 B4")};
    for (const std::int64_t tune : {1, 2})
        if (knows)
            kept.events[tune] = {1, tune, {base::read_date("2026-11-02"), tune::PlayerEvent::known}, std::nullopt};
    return support::collected(kTunesOfHardness, kept);
}

answers::TooHardAnswer asked_of_ina(const std::string& which, bool knows = true) {
    return answers::answer(library_of_ina(knows), answers::TooHardQuestion{which, "ina"});
}

}  // namespace

TEST_CASE("too hard: set beside the hardest tune that is known", "[answers][too_hard]") {
    const answers::TooHardAnswer easy = asked_of_ina("Plain Too");
    CHECK(easy.can_play == CanPlay::yes);
    CHECK(easy.known == 2);
    REQUIRE(easy.hardest);
    CHECK(tune::title_of(easy.hardest->record) == "Harder Known");
    CHECK(easy.tune.points < easy.hardest->points);
    CHECK(easy.to_learn.bars_to_learn < easy.tune.load.bars_to_learn);  // some bars are in the tunes she knows
    const answers::TooHardAnswer hard = asked_of_ina("Leaps");
    CHECK(hard.can_play == CanPlay::not_yet);
    CHECK(hard.to_learn.fresh.empty());
    CHECK(hard.tune.points > hard.hardest->points);
    CHECK(hard.tune.load.leaps > hard.hardest->load.leaps);
}

TEST_CASE("too hard: a new note is not yet, one the instrument has not is never", "[answers][too_hard]") {
    const answers::TooHardAnswer fresh = asked_of_ina("New Notes");
    CHECK(fresh.can_play == CanPlay::not_yet);
    CHECK(fresh.to_learn.fresh == music::read_notes("D5 E5 F#5"));
    const answers::TooHardAnswer low = asked_of_ina("Cellar");
    CHECK(low.can_play == CanPlay::out_of_reach);
    CHECK(low.not_on_instrument == music::read_notes("A3"));
    CHECK_FALSE(low.instrument.empty());
}

TEST_CASE("too hard: known already, nothing to measure by, nothing in it", "[answers][too_hard]") {
    const answers::TooHardAnswer known = asked_of_ina("Harder Known");
    CHECK(known.can_play == CanPlay::known);
    CHECK(tune::title_of(known.hardest->record) == "Plain");
    const answers::TooHardAnswer first = asked_of_ina("Plain Too", false);
    CHECK(first.can_play == CanPlay::unmeasured);
    CHECK_FALSE(first.hardest);
    CHECK(support::refusal_of([] { asked_of_ina("Silence"); }).reason == Reason::nothing_in_it);
    CHECK(support::refusal_of([] { asked_of_ina("Nowhere"); }).reason == Reason::unknown_tune);
}
