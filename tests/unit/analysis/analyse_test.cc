#include "analysis/analyse.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"

using written::AbcFile;

TEST_CASE("analyse: a tune read from ABC has all its facts", "[analysis][analyse]") {
    const AbcFile file("X:1\nT:Rain on the Slipway\nR:Jigs\nM:6/8\nL:1/8\nK:D\nA|:d2f {g}fed|cAE c2A|d3 d3:|\n");
    REQUIRE(file.findings() == "");
    const tune::TuneFacts facts = analysis::analyse(file.only());
    CHECK(facts.needed.midi_numbers() == std::vector<int>{64, 69, 73, 74, 76, 78});
    CHECK(facts.ornaments.midi_numbers() == std::vector<int>{79});
    CHECK(facts.note_count == 13);
    CHECK(facts.first_note == 69);
    CHECK(facts.last_note == 74);
    CHECK(facts.bars == 3);
    CHECK(facts.different_bars == 3);
    CHECK(facts.uses.size() == 6);
    CHECK(music::to_string(facts.meter.value) == "6/8");
    CHECK(facts.meter.basis == tune::Basis::stated);
    REQUIRE(facts.rhythm);
    CHECK(facts.rhythm->value == "jig");
    REQUIRE(facts.key);
    CHECK(music::to_string(facts.key->candidates.at(0).tonic) == "D");
    CHECK(facts == analysis::analyse(file.only()));
}

TEST_CASE("analyse: one use for each needed note, whose counts add up to all notes", "[analysis][analyse]") {
    const AbcFile file("X:1\nT:t\nM:4/4\nL:1/8\nK:Em\nE2B,E GEB,E|[EG]4-[EG]4|^c2z2 e4|{f}g8|\n");
    const tune::TuneFacts facts = analysis::analyse(file.only());
    int notes = 0;
    std::vector<int> midi;
    for (const tune::NoteUse& use : facts.uses) {
        notes += use.count;
        midi.push_back(use.midi);
        CHECK(use.strong <= use.count);
        CHECK_FALSE(use.bars.empty());
        CHECK(use.bars.back() <= facts.bars);
    }
    CHECK(notes == facts.note_count);
    CHECK(midi == facts.needed.midi_numbers());
}

TEST_CASE("analyse: without M: the meter is assumed", "[analysis][analyse]") {
    const tune::TuneFacts facts = analysis::analyse(AbcFile("X:1\nT:t\nK:C\nCDE\n").only());
    CHECK(facts.meter.basis == tune::Basis::assumed);
    CHECK_FALSE(facts.rhythm);
}

TEST_CASE("analyse: a tune without a note has facts all the same", "[analysis][analyse]") {
    const tune::TuneFacts facts = analysis::analyse(AbcFile("X:1\nT:t\nM:4/4\nK:C\n").only());
    CHECK(facts.needed.empty());
    CHECK(facts.bars == 0);
    CHECK_FALSE(facts.key);
    CHECK_FALSE(facts.first_note);
}
