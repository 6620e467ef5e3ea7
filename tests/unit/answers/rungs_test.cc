#include "answers/rungs.h"

#include <catch2/catch.hpp>

#include "instruments/known.h"
#include "music/note_expression.h"

namespace {

collection::TuneNotes needing(std::int64_t id, const char* notes, std::int64_t setting = 0) {
    return {tune::TuneId{id}, tune::SettingId{setting == 0 ? id : setting}, music::read_notes(notes), false};
}

const answers::Rung* rung_at(const answers::Rungs& rungs, const char* note) {
    const int midi = music::read_notes(note).lowest();
    for (const answers::Rung& rung : rungs.rungs)
        if (rung.midi == midi) return &rung;
    return nullptr;
}

const std::vector<collection::TuneNotes> kFour{needing(1, "D4 E4"), needing(2, "D4 E4 G4"), needing(3, "D4 E4 G4 A4"),
                                               needing(4, "D4 B4 C5")};

}  // namespace

TEST_CASE("rungs: a note lacking tells how many tunes it opens by itself", "[answers][rungs]") {
    const answers::Rungs rungs = answers::rungs_of(kFour, music::read_notes("D4 E4"), {}, nullptr);
    CHECK(rungs.tunes == 4);
    CHECK(rungs.open == 1);
    REQUIRE(rung_at(rungs, "G4"));
    CHECK(rung_at(rungs, "G4")->opens == 1);
    CHECK(rung_at(rungs, "G4")->uses == 2);
    CHECK(rung_at(rungs, "A4")->opens == 0);
    CHECK(rung_at(rungs, "D4")->is_had);
    CHECK(rungs.next == music::read_notes("G4").lowest());
    for (std::size_t at = 1; at < rungs.rungs.size(); ++at) CHECK(rungs.rungs[at - 1].midi < rungs.rungs[at].midi);
}

TEST_CASE("rungs: groups are told only where a note of them opens nothing alone", "[answers][rungs]") {
    const answers::Rungs rungs = answers::rungs_of(kFour, music::read_notes("D4 E4"), {}, nullptr);
    REQUIRE(rungs.groups.size() == 2);
    CHECK(rungs.groups[0].opens == 1);
    CHECK(rungs.groups[0].notes == music::read_notes("G4 A4"));
    CHECK(rungs.groups[1].notes == music::read_notes("B4 C5"));
    const answers::Rungs singles =
        answers::rungs_of({needing(1, "D4"), needing(2, "E4"), needing(3, "D4 E4")}, {}, {}, nullptr);
    CHECK(singles.groups.empty());
}

TEST_CASE("rungs: a new note tells what it opens beyond what is had", "[answers][rungs]") {
    const answers::Rungs rungs = answers::rungs_of(kFour, music::read_notes("D4 E4"), music::read_notes("G4"), nullptr);
    CHECK(rung_at(rungs, "G4")->is_fresh);
    CHECK_FALSE(rung_at(rungs, "G4")->is_had);
    CHECK(rung_at(rungs, "G4")->opens == 1);
    CHECK(rung_at(rungs, "A4")->opens == 1);  // now that G4 is there
    CHECK(rungs.open == 2);
}

TEST_CASE("rungs: one setting within the notes opens a tune, and a tune counts once", "[answers][rungs]") {
    const std::vector<collection::TuneNotes> one{needing(1, "D4 G4", 1), needing(1, "D4 A4", 2)};
    const answers::Rungs rungs = answers::rungs_of(one, music::read_notes("D4"), {}, nullptr);
    CHECK(rungs.tunes == 1);
    CHECK(rung_at(rungs, "G4")->opens == 1);
    CHECK(rung_at(rungs, "A4")->opens == 1);
    CHECK(answers::rungs_of(one, music::read_notes("D4 A4"), {}, nullptr).open == 1);
}

TEST_CASE("rungs: what the instrument has not is no rung, what hardly any tune needs is folded away",
          "[answers][rungs]") {
    std::vector<collection::TuneNotes> many;
    for (std::int64_t id = 1; id <= 200; ++id) many.push_back(needing(id, "D4"));
    many.push_back(needing(201, "D4 F5"));
    many.push_back(needing(202, "D4 G3"));
    const answers::Rungs all = answers::rungs_of(many, music::read_notes("D4"), {}, nullptr);
    CHECK(all.hardly == 2);
    CHECK(all.rungs.size() == 1);
    const auto* whistle = instruments::find("whistle-d");
    REQUIRE(whistle);
    CHECK(answers::rungs_of(many, music::read_notes("D4"), {}, whistle).hardly == 1);  // G3 is not on it
    CHECK(rung_at(answers::rungs_of(many, music::read_notes("D4 F5"), {}, whistle), "F5")->is_had);
}
