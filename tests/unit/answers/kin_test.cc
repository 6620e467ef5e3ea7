#include "answers/kin.h"

#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::KinQuestion;
using answers::Part;
using answers::Reason;

// Lamp; the same with two notes changed; one that is like it here and there; another tune.
const std::string kKinTunes =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGEF|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GF G4:|\n\n"
    "X:2\nT:Lantern\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGED|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GA G4:|\n\n"
    "X:3\nT:Torch\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGEF|d2ed BdAB|GABc dBAG:|"
    "|:g2fg edBd|gbag e2dB|D2GD B,2DG|EDB,D G4:|\n\n"
    "X:4\nT:Net\nR:reel\nM:4/4\nL:1/8\nK:D\n|:d2fd Adfd|efge a2fe|dBAF DFAd|BcdB A2FA:|"
    "|:D2FA dAFA|Bcde f2ed|cABc defg|a2ge d4:|\n";

answers::KinAnswer kin(const KinQuestion& question, people::Kept kept = {}) {
    return answers::answer(support::collected(kKinTunes, std::move(kept)), question);
}

answers::Refusal no_kin(const collection::Memory& memory, const char* of) {
    KinQuestion question;
    question.of = of;
    return support::refusal_of([&] { answers::answer(memory, question); });
}

}  // namespace

TEST_CASE("kin: pairs that may be one tune, the likest first, probable ones apart from possible ones",
          "[answers][kin]") {
    const answers::KinAnswer answer = kin({});
    CHECK(answer.least == tune::kPossibleKin);
    CHECK_FALSE(answer.of.has_value());
    REQUIRE(answer.pairs.size() == 2);
    CHECK(answer.pairs[0].one.titles.front() == "Lamp");
    CHECK(answer.pairs[0].other.titles.front() == "Lantern");
    CHECK(answer.pairs[0].likeness >= tune::kProbableKin);
    CHECK(answer.pairs[1].one.titles.front() == "Lamp");
    CHECK(answer.pairs[1].other.titles.front() == "Torch");
    CHECK(answer.pairs[1].likeness < tune::kProbableKin);
    CHECK(answer.pairs[1].likeness >= tune::kPossibleKin);
    CHECK(answer.matched == 2);
    CHECK(answer.probable == 1);
    CHECK(answer.possible == 1);
}

TEST_CASE("kin: a likeness that was asked for decides what is told", "[answers][kin]") {
    KinQuestion question;
    question.least = tune::kProbableKin;
    CHECK(kin(question).matched == 1);
    CHECK(kin(question).possible == 0);
    question.least = 0.4;
    const answers::KinAnswer answer = kin(question);
    CHECK(answer.least == 0.4);
    CHECK(answer.matched == 3);  // Lantern and Torch too
    CHECK(answer.probable == 1);
    CHECK(answer.possible == 1);
    CHECK(answer.pairs.back().one.titles.front() == "Lantern");
    CHECK(answer.pairs.back().likeness < tune::kPossibleKin);
}

TEST_CASE("kin: a limit cuts the pairs told and not the counts", "[answers][kin]") {
    KinQuestion question;
    question.limit = 1;
    const answers::KinAnswer answer = kin(question);
    REQUIRE(answer.pairs.size() == 1);
    CHECK(answer.pairs[0].other.titles.front() == "Lantern");
    CHECK(answer.matched == 2);
    CHECK(answer.possible == 1);
    question.limit = 9;
    CHECK(kin(question).pairs.size() == 2);
    question.limit = 0;
    CHECK(kin(question).pairs.empty());
}

TEST_CASE("kin: of one tune, which then stands first in each pair", "[answers][kin]") {
    KinQuestion question;
    question.of = "lantern";
    question.least = 0.4;
    const answers::KinAnswer answer = kin(question);
    REQUIRE(answer.of.has_value());
    CHECK(answer.of->own == tune::TuneId{2});
    REQUIRE(answer.pairs.size() == 2);
    CHECK(answer.pairs[0].one.titles.front() == "Lantern");
    CHECK(answer.pairs[0].other.titles.front() == "Lamp");
    CHECK(answer.pairs[1].one.titles.front() == "Lantern");
    CHECK(answer.pairs[1].other.titles.front() == "Torch");
    question.of = "4";  // Net, like none
    CHECK(kin(question).pairs.empty());
    CHECK(kin(question).of->titles.front() == "Net");
}

TEST_CASE("kin: a pair of which a person has spoken is not told", "[answers][kin]") {
    people::Kept kept;
    kept.verdicts[{1, 2}] = {false, 1};
    const answers::KinAnswer answer = kin({}, kept);
    CHECK(answer.matched == 1);
    CHECK(answer.probable == 0);
}

TEST_CASE("kin: of settings that are one tune only the likest pair with another is told", "[answers][kin]") {
    people::Kept kept;
    kept.verdicts[{1, 2}] = {true, 1};
    const answers::KinAnswer answer = kin({}, kept);
    REQUIRE(answer.pairs.size() == 1);
    CHECK(answer.pairs[0].likeness == kin({}).pairs[1].likeness);
    CHECK(answer.pairs[0].other.titles.front() == "Torch");
}

TEST_CASE("kin: what is no question", "[answers][kin]") {
    const collection::Memory memory = support::collected(kKinTunes);
    const answers::Refusal unknown = no_kin(memory, "Nowhere");
    CHECK(unknown.part == Part::tune);
    CHECK(unknown.reason == Reason::unknown_tune);
    CHECK(unknown.what == "Nowhere");
    const answers::Refusal several = no_kin(memory, "la");  // Lamp and Lantern
    CHECK(several.reason == Reason::several_settings);
    CHECK(several.tunes.size() == 2);
}

TEST_CASE("kin: a title that two settings of one tune bear means the first", "[answers][kin]") {
    people::Kept kept;
    kept.verdicts[{1, 2}] = {true, 1};
    KinQuestion question;
    question.of = "la";
    CHECK(kin(question, kept).of->own == tune::TuneId{1});
}
