#include "answers/week_handout.h"

#include <catch2/catch.hpp>

#include "music/note_expression.h"
#include "support/collected.h"

namespace {

const std::string kWeekTunes =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAF DFAF|EFAF E4|DFAF DFAF|EAFE D4:|\n|:AFDF AFDF|AFEF A4|AFDF "
    "AFDF|EAFE D4:|\n\n"
    "X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\n|:FAFE FAFE|FAAF F4|FAFE DEFE|FAFE D4:|\n|:AAFA AAFA|EEFA E4|AAFA "
    "DEFA|FAFE D4:|\n\n"
    "X:3\nT:Pail\nR:jig\nM:6/8\nL:1/8\nK:D\n|:DFA AFD|EFE EFE|DFA AFD|AFE D3:|\n|:AFA AFA|FEF FEF|DFA AFD|AFE D3:|\n\n"
    "X:4\nT:Up There\nR:jig\nM:6/8\nL:1/8\nK:D\n|:DFA dFD|EFE EFE|DFA dFD|AFE D3:|\n|:AFA AFA|FEF FEF|DFA dFD|AFE "
    "D3:|\n";

people::Kept ina() {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "whistle-d", music::read_notes("D4 E4 F#4 A4")};
    kept.events[1] = {1, 1, {base::read_date("2026-10-01"), tune::PlayerEvent::known}, std::nullopt};
    kept.events[2] = {1, 2, {base::read_date("2026-11-01"), tune::PlayerEvent::known}, std::nullopt};
    return kept;
}

}  // namespace

TEST_CASE("week handout: something new, a note, what comes back", "[answers][week_handout]") {
    const answers::WeekHandout week =
        answers::week_handout(support::collected(kWeekTunes, ina()), "ina", base::read_date("2027-01-11"));
    CHECK(week.player == "Ina");
    REQUIRE(week.tune);
    CHECK(tune::title_of(week.tune->record) == "Pail");
    CHECK_FALSE(week.is_at_work);
    CHECK(week.fresh == music::read_notes("D5").lowest());
    CHECK(week.opens == 1);
    REQUIRE(week.again.size() == 2);
    CHECK(tune::title_of(week.again[0].record) == "Lamp");
    CHECK_FALSE(week.brief);  // all that Ina knows comes back already
}

TEST_CASE("week handout: a tune at work goes before a new one", "[answers][week_handout]") {
    people::Kept kept = ina();
    kept.events[3] = {1, 3, {base::read_date("2027-01-10"), tune::PlayerEvent::learning}, std::nullopt};
    const answers::WeekHandout week =
        answers::week_handout(support::collected(kWeekTunes, kept), "Ina", base::read_date("2027-01-10"));
    CHECK(week.is_at_work);
    CHECK(tune::title_of(week.tune->record) == "Pail");
    for (const answers::WeekTune& again : week.again) CHECK(tune::title_of(again.record) != "Pail");
}
