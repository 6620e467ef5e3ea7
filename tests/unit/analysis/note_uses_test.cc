#include "analysis/note_uses.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"
#include "music/pitch.h"

using written::AbcFile;
using written::tune_of;

namespace {

// `G4 3 times, 2 strong, bars 1 3`, one for each needed note, parted by semicolons.
std::string uses(const std::string& abc) {
    const AbcFile file(abc);
    std::string text;
    for (const tune::NoteUse& use : analysis::find_note_uses(file.only().melody).uses) {
        text += (text.empty() ? "" : "; ") + music::to_string(music::spell_midi(use.midi)) + " " +
                std::to_string(use.count) + " times, " + std::to_string(use.strong) + " strong, bars";
        for (const int bar : use.bars) text += " " + std::to_string(bar);
    }
    return text;
}

std::string pickups(const std::string& abc) {
    const AbcFile file(abc);
    std::string text;
    for (std::size_t bar = 0; bar < file.only().melody.bars.size(); ++bar)
        if (analysis::is_pickup(file.only().melody, bar)) text += (text.empty() ? "" : " ") + std::to_string(bar + 1);
    return text;
}

}  // namespace

TEST_CASE("note uses: each needed note knows how often, how strong and in which bars", "[analysis][note_uses]") {
    CHECK(uses(tune_of("GA|B2c2 d2B2|G4 G4-|G8|")) ==
          "G4 3 times, 2 strong, bars 0 2 3; A4 1 times, 0 strong, bars 0; B4 2 times, 1 strong, bars 1; C5 1 times, 0 "
          "strong, bars 1; "
          "D5 1 times, 1 strong, bars 1");
}

TEST_CASE("note uses: a tied note is not struck again, yet stands in its bar", "[analysis][note_uses]") {
    CHECK(uses(tune_of("G8-|G8-|G8|")) == "G4 1 times, 1 strong, bars 1 2 3");
    CHECK(analysis::find_note_uses(AbcFile(tune_of("G8-|G8|A8|")).only().melody).note_count == 2);
}

TEST_CASE("note uses: a pick-up lies at the end of the bar it leads out of", "[analysis][note_uses]") {
    // Source: common practice, no source.
    CHECK(uses(tune_of("A|B6|", "M:6/8\n")) == "A4 1 times, 0 strong, bars 0; B4 1 times, 1 strong, bars 1");
    CHECK(uses(tune_of("ABc|d6|", "M:6/8\n")).substr(0, 30) == "A4 1 times, 1 strong, bars 0; ");
    CHECK(uses(tune_of("A4|B8|")).substr(0, 30) == "A4 1 times, 1 strong, bars 0; ");
    CHECK(uses(tune_of("A2|B8|")).substr(0, 30) == "A4 1 times, 0 strong, bars 0; ");
}

TEST_CASE("note uses: bars are numbered as a player counts, pick-ups without a number of their own",
          "[analysis][note_uses]") {
    // Source: common practice, no source.
    const AbcFile file(tune_of("G2|A8|B6:|c2|d8|e6:|"));
    CHECK(analysis::number_bars(file.only().melody) == std::vector<int>{0, 1, 2, 2, 3, 4});
}

TEST_CASE("note uses: short bars that begin a part are pick-ups, full and inner ones are not",
          "[analysis][note_uses]") {
    CHECK(pickups(tune_of("G2|A8|B8:|")) == "1");
    CHECK(pickups(tune_of("G8|A8|")) == "");
    CHECK(pickups(tune_of("G8|A2|B8|")) == "");
    CHECK(pickups(tune_of("G2|A8|B6:|c2|d8|e6:|")) == "1 4");
    CHECK(pickups(tune_of("G2|A8|B6||c2|d8|e6|]")) == "1 4");
    CHECK(pickups(tune_of("G8|B6|:c2|d8:|")) == "3");
    CHECK(pickups("X:1\nT:t\nK:C\nG2|A8|\n") == "");
}

TEST_CASE("note uses: strong places follow the meter in force", "[analysis][note_uses]") {
    CHECK(uses(tune_of("G2A2B2|", "M:3/4\n")) ==
          "G4 1 times, 1 strong, bars 1; A4 1 times, 0 strong, bars 1; B4 1 times, 0 strong, bars 1");
    CHECK(uses(tune_of("G3A3|[M:9/8]B3c3d3|", "M:6/8\n")) ==
          "G4 1 times, 1 strong, bars 1; A4 1 times, 1 strong, bars 1; B4 1 times, 1 strong, bars 2; C5 1 times, 1 "
          "strong, bars 2; "
          "D5 1 times, 1 strong, bars 2");
}

TEST_CASE("note uses: grace notes are ornaments, and needed only where they are melody notes too",
          "[analysis][note_uses]") {
    const AbcFile file(tune_of("{ga}G4{G}A4|"));
    const analysis::NoteUses found = analysis::find_note_uses(file.only().melody);
    CHECK(found.needed.midi_numbers() == std::vector<int>{67, 69});
    CHECK(found.ornaments.midi_numbers() == std::vector<int>{67, 79, 81});
    CHECK(found.note_count == 2);
}

TEST_CASE("note uses: endings and rests", "[analysis][note_uses]") {
    const AbcFile file(tune_of("|:z4G4|1A8:|2B8|]"));
    const analysis::NoteUses found = analysis::find_note_uses(file.only().melody);
    CHECK(found.needed.midi_numbers() == std::vector<int>{67, 69, 71});
    CHECK(found.first_note == 67);
    CHECK(found.last_note == 71);
}

TEST_CASE("note uses: of a chord the top note is first and last, and all are needed", "[analysis][note_uses]") {
    const AbcFile file(tune_of("[EGC]4A4|[cA]8|"));
    const analysis::NoteUses found = analysis::find_note_uses(file.only().melody);
    CHECK(found.first_note == 67);
    CHECK(found.last_note == 72);
    CHECK(found.needed.midi_numbers() == std::vector<int>{60, 64, 67, 69, 72});
    CHECK(found.note_count == 6);
}

TEST_CASE("note uses: a rest of four bars counts four when bars are counted", "[analysis][note_uses]") {
    CHECK(uses(tune_of("C8|Z4|D8|")) == "C4 1 times, 1 strong, bars 1; D4 1 times, 1 strong, bars 6");
}

TEST_CASE("note uses: other voices and overlays need nothing", "[analysis][note_uses]") {
    const AbcFile file(tune_of("V:1\nC8&E8|\nV:2\nG8|\n"));
    CHECK(analysis::find_note_uses(file.only().melody).needed.midi_numbers() == std::vector<int>{60});
}

TEST_CASE("note uses: a tune without notes needs none", "[analysis][note_uses]") {
    const analysis::NoteUses found = analysis::find_note_uses(AbcFile(tune_of("z8|")).only().melody);
    CHECK(found.needed.empty());
    CHECK(found.uses.empty());
    CHECK_FALSE(found.first_note);
    CHECK_FALSE(found.last_note);
}
