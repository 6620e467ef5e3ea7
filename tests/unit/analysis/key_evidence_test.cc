#include "analysis/key_evidence.h"

#include <catch2/catch.hpp>

#include "../abc/written.h"

namespace {

std::optional<analysis::KeyEvidence> evidence_of(const std::string& music) {
    return analysis::find_key_evidence(written::AbcFile(written::tune_of(music)).only().melody);
}

constexpr std::size_t kC = 0, kD = 2, kE = 4, kF = 5, kG = 7, kA = 9;

}  // namespace

TEST_CASE("key evidence: times are shares, those of strong beats apart", "[analysis][key_evidence]") {
    const auto evidence = evidence_of("G2A2 G2c2|G4 c4|");  // 4/4 in quavers: beats of the foot at 1 and 3
    REQUIRE(evidence);
    CHECK(evidence->time[kG] == Approx(8.0 / 16));
    CHECK(evidence->time[kC] == Approx(6.0 / 16));
    CHECK(evidence->time[kA] == Approx(2.0 / 16));
    CHECK(evidence->strong_time[kG] == Approx(8.0 / 12));
    CHECK(evidence->strong_time[kC] == Approx(4.0 / 12));
    CHECK(evidence->strong_time[kA] == 0);
    CHECK(evidence->names == 3);
}

TEST_CASE("key evidence: the last notes, of the tune, of its strong beats and of its parts",
          "[analysis][key_evidence]") {
    const auto evidence = evidence_of("|:D8|E4 F4:|G8|A4 c2G2|");
    REQUIRE(evidence);
    CHECK(evidence->last_note == 67);
    CHECK(evidence->last[kG] == 1);
    CHECK(evidence->before_last[kC] == 1);  // the last note of another name
    CHECK(evidence->last_strong_note == 72);
    CHECK(evidence->last_strong[kC] == 1);
    CHECK(evidence->first_strong[kD] == 1);
    CHECK(evidence->part_ends[kF] == Approx(0.5));
    CHECK(evidence->part_ends[kG] == Approx(0.5));
}

TEST_CASE("key evidence: a part opens with its first two bars, a pick-up is none of them", "[analysis][key_evidence]") {
    const auto evidence = evidence_of("A2|D8|E8|F8|G6:|");
    REQUIRE(evidence);
    CHECK(evidence->openings[kA] == 0);
    CHECK(evidence->openings[kD] == Approx(0.5));
    CHECK(evidence->openings[kE] == Approx(0.5));
    CHECK(evidence->openings[kF] == 0);
}

TEST_CASE("key evidence: grace notes have no say, and of a chord the top note speaks", "[analysis][key_evidence]") {
    const auto evidence = evidence_of("{F}[CEG]8|{F}D8|");
    REQUIRE(evidence);
    CHECK(evidence->time[kF] == 0);
    CHECK(evidence->time[kC] == 0);
    CHECK(evidence->time[kG] == Approx(0.5));
}

TEST_CASE("key evidence: without a meter the first note of each bar is strong", "[analysis][key_evidence]") {
    const auto evidence =
        analysis::find_key_evidence(written::AbcFile("X:1\nT:a\nM:none\nL:1/8\nK:C\nD2E4|E2F2|\n").only().melody);
    REQUIRE(evidence);
    CHECK(evidence->strong_time[kD] == Approx(0.5));
    CHECK(evidence->strong_time[kE] == Approx(0.5));
    CHECK(evidence->strong_time[kF] == 0);
}

TEST_CASE("key evidence: there is none without a note", "[analysis][key_evidence]") {
    CHECK_FALSE(evidence_of("z8|{g}z8|"));
}
