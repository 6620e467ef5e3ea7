#include "answers/tune_handout.h"

#include <catch2/catch.hpp>

#include "instruments/known.h"
#include "music/note_expression.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::Block;
using answers::HandoutReader;
using answers::TuneHandout;

const std::string kHandoutTunes =
    "X:1\nT:Lead In\nR:jig\nM:6/8\nL:1/8\nK:G\nD|G2A BAG|A2F D2D|E2G FGA|B2A G2:|\n"
    "d|e2d B2A|(3GAB {c}d3 [Gd]2B-|B3 z2A|1 G3 G2:|2 G3 G3|]\n\n"
    "X:2\nT:Silence\nM:4/4\nL:1/8\nK:G\nz8|]\n\nX:3\nT:Free\nL:1/4\nK:D\nD E F2 G A|]\n";

TuneHandout handed(const char* which, const HandoutReader& reader = {}, people::Kept kept = {}) {
    return answers::tune_handout(support::collected(kHandoutTunes, std::move(kept)), which, reader);
}

std::shared_ptr<const instruments::Instrument> known(const char* id) {
    return std::make_shared<const instruments::Instrument>(*instruments::find(id));
}

}  // namespace

TEST_CASE("tune handout: every bar in order, a lead-in told as one, blocks without a gap", "[answers][tune_handout]") {
    const TuneHandout handout = handed("lead in");
    REQUIRE(handout.blocks.parts.size() == 2);
    const answers::BlockPart& first = handout.blocks.parts[0];
    REQUIRE(first.bars.size() == 5);
    CHECK(first.is_repeated);
    CHECK(first.bars[0].is_pickup);
    CHECK(first.bars[1].number == 1);
    for (const answers::BlockPart& part : handout.blocks.parts)
        for (const answers::BlockBar& bar : part.bars) {
            music::Duration at;
            for (const Block& block : bar.blocks) {
                CHECK(block.at == at);
                at = *sum(at, block.length);
            }
            CHECK(bar.length == at);
        }
    CHECK(handout.taps == 2);
    CHECK(handout.fifths == 1);
}

TEST_CASE("tune handout: ties hold, rests rest, graces go, of a chord the upper note stays",
          "[answers][tune_handout]") {
    const TuneHandout handout = handed("lead in");
    CHECK(handout.blocks.has_graces);
    CHECK(handout.blocks.has_chords);
    const answers::BlockPart& part = handout.blocks.parts[1];
    const answers::BlockBar& held = part.bars[3];
    CHECK(held.blocks[0].kind == Block::Kind::held);
    CHECK(held.blocks[1].kind == Block::Kind::rest);
    const std::vector<Block>& chord = part.bars[2].blocks;
    CHECK(chord[chord.size() - 2].midi == music::read_notes("D5").lowest());
    CHECK(chord[0].length == music::Duration(1, 12));
    CHECK(part.bars[4].ending == "1");
    CHECK(part.bars[5].ending == "2");
}

TEST_CASE("tune handout: what a player has not is new, unless it is said", "[answers][tune_handout]") {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "whistle-d", music::read_notes("D4 E4 G4 A4 B4 D5 E5")};
    const TuneHandout hers = handed("1", {nullptr, "ina", std::nullopt, std::nullopt}, kept);
    CHECK(hers.player == "Ina");
    REQUIRE(hers.instrument);
    CHECK(hers.instrument->id == "whistle-d");
    CHECK(hers.fresh == music::read_notes("F#4"));
    CHECK(handed("1", {nullptr, "ina", std::nullopt, "B4 C6"}, kept).fresh == music::read_notes("B4"));
    CHECK(handed("1", {nullptr, std::nullopt, "D4 E4", std::nullopt}).fresh == music::read_notes("F#4 G4 A4 B4 D5 E5"));
    CHECK(handed("1").fresh.empty());
}

TEST_CASE("tune handout: each struck note has a way of the instrument, and what it lacks is told",
          "[answers][tune_handout]") {
    const TuneHandout handout = handed("1", {known("whistle-d"), {}, {}, {}});
    for (const answers::BlockPart& part : handout.blocks.parts)
        for (const answers::BlockBar& bar : part.bars)
            for (const Block& block : bar.blocks) CHECK(block.has_way == (block.kind == Block::Kind::struck));
    CHECK(handout.lacking.empty());
    const TuneHandout pipes = handed("1", {known("highland-pipes"), {}, {}, {}});
    CHECK(pipes.lacking.has(music::read_notes("D4").lowest()));
    CHECK_FALSE(pipes.blocks.parts[0].bars[0].blocks[0].has_way);
}

TEST_CASE("tune handout: a tune without a note is refused, one in free time is tapped by nobody",
          "[answers][tune_handout]") {
    CHECK(support::refusal_of([] { handed("silence"); }).reason == answers::Reason::no_note);
    CHECK(handed("free").taps == 0);
}

TEST_CASE("tune handout: the foot taps as the trade does", "[answers][tune_handout]") {
    // Common practice, no source; the table of the paper brief.
    CHECK(answers::taps_in_bar("reel", "4/4") == 2);
    CHECK(answers::taps_in_bar("reel", "2/2") == 2);
    CHECK(answers::taps_in_bar("jig", "6/8") == 2);
    CHECK(answers::taps_in_bar("slip jig", "9/8") == 3);
    CHECK(answers::taps_in_bar("slide", "12/8") == 4);
    CHECK(answers::taps_in_bar("polka", "2/4") == 2);
    CHECK(answers::taps_in_bar("waltz", "3/4") == 3);
    CHECK(answers::taps_in_bar("triple hornpipe", "3/2") == 3);
    CHECK(answers::taps_in_bar("march", "4/4") == 4);
    CHECK(answers::taps_in_bar("air", "4/4") == 4);
    CHECK(answers::taps_in_bar("", "4/4") == 4);
    CHECK(answers::taps_in_bar("reel", "none") == 0);
}
