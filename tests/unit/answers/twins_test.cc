#include "answers/twins.h"

#include <catch2/catch.hpp>

#include "support/collected.h"

namespace {

// Lamp in G; the same with two notes changed under another title; Net, another tune.
const std::string kLamp =
    "X:1\nT:Lamp\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGEF|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GF G4:|\n\n";
const std::string kLantern =
    "X:2\nT:Lantern\nR:reel\nM:4/4\nL:1/8\nK:G\n|:G2BG dGBG|ABcA BGED|G2BG dGBd|e2dB A2GF:|"
    "|:g2fg edBd|gfed e2dB|c2ec B2dB|A2GA G4:|\n\n";
const std::string kNet =
    "X:3\nT:Net\nR:reel\nM:4/4\nL:1/8\nK:D\n|:d2fd Adfd|efge a2fe|dBAF DFAd|BcdB A2FA:|"
    "|:D2FA dAFA|Bcde f2ed|cABc defg|a2ge d4:|\n";

}  // namespace

TEST_CASE("twins: two settings that are probably one tune are told once", "[answers][twins]") {
    const collection::Memory memory = support::collected(kLamp + kLantern + kNet);
    const std::vector<answers::Twin> twins = answers::probable_twins(memory);
    REQUIRE(twins.size() == 1);
    CHECK(twins[0].one == tune::TuneId{1});
    CHECK(twins[0].other == tune::TuneId{2});
    CHECK(twins[0].likeness >= tune::kProbableKin);
    CHECK(answers::probable_twins_of(memory, *memory.tune_by_id({2})).size() == 1);
    CHECK(answers::probable_twins_of(memory, *memory.tune_by_id({3})).empty());
}

TEST_CASE("twins: what a person has spoken of is not asked again", "[answers][twins]") {
    people::Kept kept;
    kept.verdicts[{1, 2}] = {false, 1};
    const collection::Memory memory = support::collected(kLamp + kLantern + kNet, kept);
    CHECK(answers::probable_twins(memory).empty());
}

TEST_CASE("twins: of doubles the first that was asked for stays", "[answers][twins]") {
    const collection::Memory memory = support::collected(kLamp + kLantern + kNet);
    CHECK(answers::probable_doubles(memory, {{2}, {3}, {1}}) == std::set<tune::TuneId>{{1}});
    CHECK(answers::probable_doubles(memory, {{1}, {3}}).empty());
}
