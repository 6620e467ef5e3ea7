#include "answers/next.h"

#include <catch2/catch.hpp>

#include "answers/within_reach.h"
#include "instruments/known.h"
#include "support/collected.h"

namespace {

// Eight bars each, so that none is a scrap: within D4..A4, one with a B4, and a short one.
const std::string kNextTunes =
    "X:1\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:D\n|:DED FED|AFD DEF|FEF AFA|FED D3:|\n\n"
    "X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAF DFAF|EFAF E4|DFAF DFAF|EAFE D4:|\n\n"
    "X:3\nT:Tower\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAB AFDE|FABA F4|DFAB AFDE|FAFE D4:|\n\n"
    "X:4\nT:Crumb\nR:reel\nM:4/4\nL:1/8\nK:D\nDFAF D4|]\n";

people::Kept ina(std::initializer_list<std::tuple<std::int64_t, tune::PlayerEvent>> tunes) {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "whistle-d", music::read_notes("D4 E4 F#4 A4")};
    std::int64_t rank = 0;
    for (const auto& [tune, what] : tunes)
        kept.events[++rank] = {1, tune, {base::read_date("2026-11-02"), what}, std::nullopt};
    return kept;
}

answers::NextAnswer next_for(const people::Kept& kept, answers::NextQuestion question = {}) {
    question.player = "Ina";
    question.filter.asker = "Ina";
    return answers::answer(support::collected(kNextTunes, kept), question);
}

std::vector<std::string> titles(const std::vector<answers::NextTune>& picks) {
    std::vector<std::string> titles;
    for (const answers::NextTune& pick : picks) titles.push_back(tune::title_of(pick.record));
    return titles;
}

}  // namespace

TEST_CASE("next: within the notes at hand, scraps and what is begun left aside", "[answers][next]") {
    const answers::NextAnswer answer = next_for(ina({{1, tune::PlayerEvent::learning}}));
    CHECK(titles(answer.picks) == std::vector<std::string>{"Rope"});
    REQUIRE(answer.at_work.size() == 1);
    CHECK(tune::title_of(answer.at_work[0]) == "Lamp");
    CHECK(answer.scraps == 1);
    CHECK(answer.within == 1);
    CHECK_FALSE(answer.is_note_first);
    REQUIRE(answer.note.has_value());
    CHECK(answer.note->add == music::read_notes("B4"));
    CHECK(answer.note->examples == std::vector<std::string>{"Tower"});
    CHECK(answer.instrument->id == "whistle-d");
}

TEST_CASE("next: a scrap comes when it is asked for", "[answers][next]") {
    answers::NextQuestion question;
    question.filter.scraps = answers::Scraps::asked_for;
    const answers::NextAnswer answer = next_for(ina({{1, tune::PlayerEvent::learning}}), question);
    CHECK(answer.scraps == 0);
    CHECK(answer.within == 2);
}

TEST_CASE("next: where no tune is left within the notes the note comes first", "[answers][next]") {
    const answers::NextAnswer answer = next_for(ina({{1, tune::PlayerEvent::known}, {2, tune::PlayerEvent::known}}));
    CHECK(answer.is_note_first);
    CHECK(titles(answer.picks) == std::vector<std::string>{"Tower"});
}

TEST_CASE("next: a rhythm that no tune has is told", "[answers][next]") {
    answers::NextQuestion question;
    question.filter.columns.rhythm = "waltz";
    const answers::NextAnswer answer = next_for(ina({}), question);
    CHECK(answer.picks.empty());
    CHECK(answer.no_such_rhythm == "waltz");
    CHECK(answer.left_out == 4);
}

TEST_CASE("next: any way of making a note, or one way through a tune", "[answers][next]") {
    answers::NextQuestion question;
    CHECK(next_for(ina({}), question).instrument.get() == instruments::find("whistle-d"));
    question.any_ways = true;
    CHECK(next_for(ina({}), question).instrument.get() != instruments::find("whistle-d"));
}

TEST_CASE("next: reach is that of the player's instrument and of all who play along", "[answers][next]") {
    const collection::Memory memory = support::collected(kNextTunes, ina({}));
    answers::Filter filter;
    filter.fits = {"D4 E4 F#4"};
    const answers::TunesAsked asked(memory, filter);
    const auto player = *memory.player_named("Ina");
    const collection::Selection selection = answers::within_reach(asked, player, {});
    CHECK(selection.fits == music::read_notes("D4 E4 F#4"));
    CHECK(answers::said_of(player, {1}) == nullptr);
}
