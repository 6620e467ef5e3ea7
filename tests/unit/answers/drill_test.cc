#include "answers/drill.h"

#include <catch2/catch.hpp>

#include "abc/read.h"
#include "instruments/known.h"
#include "music/note_expression.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::DrillQuestion;
using hands::Passage;

answers::DrillAnswer drill_of(const char* have, const char* fresh) {
    DrillQuestion question;
    if (*have != '\0') question.have = music::read_notes(have);
    if (*fresh != '\0') question.fresh = music::read_notes(fresh);
    return answers::answer(question);
}

tune::Setting read_back(const std::string& abc) {
    base::Diagnostics found;
    std::vector<tune::Setting> settings = abc::read_settings(base::SourceFile("drill.abc", abc), found);
    CHECK(found.kept().empty());
    REQUIRE(settings.size() == 1);
    return settings.front();
}

std::vector<std::vector<int>> bars_of(const music::Melody& melody) {
    std::vector<std::vector<int>> bars(melody.bars.size());
    for (const music::Sound& sound : melody.sounds) bars[sound.bar].push_back(melody.heads[sound.first_head].midi);
    return bars;
}

}  // namespace

TEST_CASE("drill: up and down over all notes, then each new one in its place", "[answers][drill]") {
    const answers::DrillAnswer answer = drill_of("D4 E4 G4 A4", "F#4 B4");
    REQUIRE(answer.drill.size() == 3);
    CHECK(answer.drill[0].kind == Passage::Kind::up_and_down);
    CHECK(answer.drill[0].bars == std::vector<std::vector<int>>{{62, 64, 66, 67}, {69, 71, 69, 67}, {66, 64, 62}});
    CHECK(answer.drill[1].kind == Passage::Kind::around);
    CHECK(answer.drill[1].about == 66);
    CHECK(answer.drill[1].bars.at(0) == std::vector<int>{64, 66, 67, 66});
    CHECK(answer.drill[2].about == 71);
    CHECK(answer.have == music::read_notes("D4 E4 G4 A4"));
    CHECK(answer.fresh == music::read_notes("F#4 B4"));
}

TEST_CASE("drill: a note that is new is not one that is there", "[answers][drill]") {
    const answers::DrillAnswer answer = drill_of("D4 E4 F#4", "F#4");
    CHECK(answer.have == music::read_notes("D4 E4"));
    CHECK(answer.fresh == music::read_notes("F#4"));
    CHECK(answer.drill.size() == 2);
}

TEST_CASE("drill: with new notes alone, and without any", "[answers][drill]") {
    CHECK(drill_of("", "D4 E4").drill.size() == 3);
    CHECK(drill_of("D4 E4", "").drill.size() == 1);
    CHECK(drill_of("D4", "").drill.at(0).bars == std::vector<std::vector<int>>{{62}});
}

TEST_CASE("drill: its ABC reads back as the same notes in the same bars", "[answers][drill]") {
    for (const auto& [have, fresh] :
         {std::pair("D4 E4 F#4 G4 A4", "B4"), std::pair("D4 F4 G4 A4 C5", "Bb4"),
          std::pair("C4 C#4 D4 D#4 E4 F4 F#4 G4 G#4 A4 A#4 B4", "C5 C#5"), std::pair("Ab4 Bb4 C5", "Eb5"),
          std::pair("D4 E4", ""), std::pair("", "C6"), std::pair("C2 G9", "B3 F#4"), std::pair("G#4 C#5 D#5", "F#5")}) {
        CAPTURE(have, fresh);
        const answers::DrillAnswer answer = drill_of(have, fresh);
        const tune::Setting setting = read_back(answer.abc);
        std::vector<std::vector<int>> bars;
        std::vector<std::string> labels;
        for (const Passage& passage : answer.drill) {
            bars.insert(bars.end(), passage.bars.begin(), passage.bars.end());
            labels.push_back(answers::title_of(answer, passage));
        }
        CHECK(bars_of(setting.melody) == bars);
        REQUIRE(setting.melody.parts.size() == labels.size());
        for (std::size_t at = 0; at < labels.size(); ++at) CHECK(setting.melody.parts[at].label == labels[at]);
        for (const music::Sound& sound : setting.melody.sounds) CHECK(sound.length == music::Duration(1, 4));
        CHECK(setting.key.key.signature_fifths() == answer.fifths);
    }
}

TEST_CASE("drill: notes are spelled as the signature that needs fewest signs has them", "[answers][drill]") {
    const answers::DrillAnswer flats = drill_of("D4 F4 G4 A4 C5", "Bb4");
    CHECK(flats.fifths == -1);
    CHECK(flats.abc.find("\nK:F\n") != std::string::npos);
    CHECK(flats.abc.starts_with("X:1\nT:Drill: Bb4\n"));
    CHECK(answers::title_of(flats, flats.drill.at(1)) == "Bb4 in its place");
    const answers::DrillAnswer sharps = drill_of("D4 E4 G4 A4", "C#5 F#4");
    CHECK(sharps.fifths == 2);
    CHECK(sharps.abc.starts_with("X:1\nT:Drill: F#4 C#5\n"));
    CHECK(answers::title_of(sharps, sharps.drill.at(0)) == "Up and down");
    CHECK(answers::title_of(sharps, sharps.drill.at(2)) == "C#5 in its place");
    CHECK(drill_of("D4 E4", "").abc.starts_with("X:1\nT:Drill: Notes\n"));
}

TEST_CASE("drill: the instrument asked about is the one answered for", "[answers][drill]") {
    DrillQuestion question;
    question.fresh = music::read_notes("D4");
    CHECK(answers::answer(question).instrument == nullptr);
    question.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    CHECK(answers::answer(question).instrument == question.instrument);
}

TEST_CASE("drill: a player's notes and instrument, where no others are given", "[answers][drill]") {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "whistle-d", music::read_notes("D4 E4 F#4")};
    const collection::Memory memory = support::collected("X:1\nT:Lamp\nM:4/4\nL:1/8\nK:D\nDEFE D4|]\n", kept);
    DrillQuestion question;
    question.fresh = music::read_notes("G4");
    const DrillQuestion asked = answers::drill_for(memory, "ina", question);
    CHECK(asked.have == music::read_notes("D4 E4 F#4"));
    REQUIRE(asked.instrument != nullptr);
    CHECK(asked.instrument->id == "whistle-d");
    CHECK(asked.fresh == question.fresh);
    question.have = music::read_notes("A4");
    question.instrument = {std::shared_ptr<void>(), instruments::find("fiddle-1")};
    CHECK(answers::drill_for(memory, "Ina", question).have == music::read_notes("A4"));
    CHECK(answers::drill_for(memory, "Ina", question).instrument->id == "fiddle-1");
    CHECK(support::refusal_of([&] { answers::drill_for(memory, "Nobody", question); }).reason ==
          answers::Reason::unknown_player);
}

TEST_CASE("drill: a class has the notes that all of it have, and an instrument where it is everyone's",
          "[answers][drill]") {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "whistle-d", music::read_notes("D4 E4 F#4")};
    kept.players[2] = {"Uli", "uli", "whistle-d", music::read_notes("E4 F#4 G4")};
    kept.players[3] = {"Olli", "olli", "fiddle-1", music::read_notes("E4 G4")};
    kept.classes["duo"] = {"Duo", {1, 2}};
    kept.classes["trio"] = {"Trio", {1, 2, 3}};
    const collection::Memory memory = support::collected("X:1\nT:Lamp\nM:4/4\nL:1/8\nK:D\nDEFE D4|]\n", kept);
    const DrillQuestion duo = answers::drill_for(memory, "duo", {});
    CHECK(duo.have == music::read_notes("E4 F#4"));
    REQUIRE(duo.instrument != nullptr);
    CHECK(duo.instrument->id == "whistle-d");
    const DrillQuestion trio = answers::drill_for(memory, "trio", {});
    CHECK(trio.have == music::read_notes("E4"));
    CHECK(trio.instrument == nullptr);
}
