#include "analysis/structure.h"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <ctime>
#include <string>

#include "../abc/written.h"
#include "analysis/bar_shapes.h"
#include "analysis/note_uses.h"
#include "music/key.h"

using written::AbcFile;
using written::tune_of;

namespace {

// Eight bars of which no two are alike, nor like those of another opening note.
const std::string kOne = "C2E2 G4|D2F2 A4|E2G2 B4|F2A2 c4|G2B2 d4|A2c2 e4|B2d2 f4|c8";
const std::string kOther = "c2G2 E4|d2A2 F4|e2B2 G4|f2c2 A4|g2d2 B4|a2e2 c4|b2f2 d4|G8";

tune::Structure structure_of(const std::string& music, const std::string& fields = "") {
    const AbcFile file(tune_of(music, fields));
    const music::Melody& melody = file.only().melody;
    return analysis::find_structure(melody, analysis::number_bars(melody));
}

// `A 1-8 8 twice; B 9-16 8 after 1/4`, one for each part: bars written, bars played once, repeat, pick-up.
std::string parts_of(const std::string& music, const std::string& fields = "") {
    std::string text;
    for (const tune::Part& part : structure_of(music, fields).parts) {
        text += (text.empty() ? "" : "; ") + part.label + " " + std::to_string(part.first_bar) + "-" +
                std::to_string(part.last_bar);
        text += " " + std::to_string(part.bars);
        if (part.is_repeated) text += " twice";
        if (part.pickup) text += " after " + music::to_string(*part.pickup);
    }
    return text;
}

std::string groups(const std::string& music) {
    const AbcFile file(tune_of(music));
    const std::vector<int> numbers = analysis::number_bars(file.only().melody);
    std::string text;
    for (const std::vector<int>& group :
         analysis::equal_bars(analysis::find_structure(file.only().melody, numbers), numbers)) {
        if (!text.empty()) text += ";";
        for (const int bar : group) text += " " + std::to_string(bar);
    }
    return text;
}

}  // namespace

TEST_CASE("structure: repeats, thick bar lines and P: part a tune", "[analysis][structure]") {
    CHECK(parts_of("|:C8|D8|E8|F8:|\n|:G8|A8|B8|c8:|") == "A 1-4 4 twice; B 5-8 4 twice");
    CHECK(parts_of("|:C8|D8|E8|F8::G8|A8|B8|c8:|") == "A 1-4 4 twice; B 5-8 4 twice");
    CHECK(parts_of("C8|D8|E8|F8||G8|A8|B8|c8|]") == "A 1-4 4; B 5-8 4");
    CHECK(parts_of("P:Slow\nC8|D8|\nP:Quick\nE8|F8|") == "Slow 1-2 2; Quick 3-4 2");
    CHECK(parts_of("C8|D8|E8|F8|") == "A 1-4 4");
    CHECK(parts_of("C8|D8|:E8|F8:|") == "A 1-2 2; B 3-4 2 twice");
    CHECK(parts_of("") == "");
}

TEST_CASE("structure: half-written repeats are understood", "[analysis][structure]") {
    // Source: ABC standard 2.1, section 4.8, asks a reader to bear a missing `|:`.
    CHECK(parts_of("C8|D8|E8|F8:|G8|A8|B8|c8:|") == "A 1-4 4 twice; B 5-8 4 twice");
    CHECK(parts_of("C8|D8||E8|F8:|") == "A 1-2 2; B 3-4 2 twice");
    // A `|:` waits for its `:|` across a thick bar line, and means nothing without one.
    CHECK(parts_of("|:C8|D8||E8|F8:|") == "A 1-2 2 twice; B 3-4 2 twice");
    CHECK(parts_of("|:C8|D8||E8|F8|]") == "A 1-2 2; B 3-4 2");
    CHECK(parts_of("|:C8|D8:|E8|F8||G8|A8:|") == "A 1-2 2 twice; B 3-4 2; C 5-6 2 twice");
    CHECK(parts_of("|:C8|D8|1E8|2F8|]") == "A 1-4 3 twice");
}

TEST_CASE("structure: endings belong to their part, and the last one is played", "[analysis][structure]") {
    CHECK(parts_of("|:C8|D8|E8|1F8:|2G8||A8|B8|]") == "A 1-5 4 twice; B 6-7 2");
    CHECK(parts_of("|:C8|D8|[1E8|F8:|[2G8|A8|]") == "A 1-6 4 twice");
    CHECK(parts_of("|:C8|D8|E8|[1,3F8:|[2,4G8:|\n|:A8|B8:|") == "A 1-5 4 twice; B 6-7 2 twice");
    const tune::Structure found = structure_of("|:C8|D8|E8|1F8:|2G8||A8|B8|]");
    CHECK(found.parts[0].first_ending == 3);
    CHECK(found.parts[0].last_ending == 4);
    CHECK(found.parts[0].bars_end == 5);
    CHECK(found.parts[1].first_ending == found.parts[1].bars_end);
}

TEST_CASE("structure: an ending that nothing closes ends where the first one does", "[analysis][structure]") {
    CHECK(parts_of("C8|D8|E8|1F8:|2G8|\nA8|B8|c8|d8:|") == "A 1-5 4 twice; B 6-9 4 twice");
    CHECK(parts_of("C8|D8|E8|1F8:|2G8|A8|B8|c8|]") == "A 1-8 7 twice");
}

TEST_CASE("structure: a pick-up is no bar and goes with the part it leads into", "[analysis][structure]") {
    CHECK(parts_of("G2|C8|D8|E8|F6:|A|G8|A8|B8|c7:|") == "A 1-4 4 twice after 1/4; B 5-8 4 twice after 1/8");
    CHECK(parts_of("G2|:C8|D8|E8|F6:|A|:G8|A8|B8|c7:|") == "A 1-4 4 twice after 1/4; B 5-8 4 twice after 1/8");
    CHECK(parts_of("C8|D6:|") == "A 1-2 2 twice");
    CHECK(parts_of("C8|D6||E8|F8|]") == "A 1-2 2; B 3-4 2");
    CHECK(parts_of("G2|C8|") == "A 1-1 1 after 1/4");
    CHECK(parts_of("GABc|d3|", "M:none\n") == "A 1-2 2");
}

TEST_CASE("structure: a short second ending is a bar, not a pick-up", "[analysis][structure]") {
    const AbcFile file(tune_of("G2|C8|D8|1E6G2:|2E6||"));
    const music::Melody& melody = file.only().melody;
    const tune::Structure found = analysis::find_structure(melody, analysis::number_bars(melody));
    REQUIRE(found.parts.size() == 1);
    CHECK(found.parts[0].bars == 3);
    CHECK(found.different_bars == 4);
}

TEST_CASE("structure: a bar written in two pieces counts once", "[analysis][structure]") {
    CHECK(structure_of("C8|D8|E4[1F4:|[2G4|]").parts.at(0).bars == 3);
    CHECK(parts_of("C8|D4|E4|F8|").substr(5) == " 3");
    CHECK(parts_of("C8|D4|E2|F8|").substr(5) == " 4");
    CHECK(parts_of("C8|D4|E4|F4|G8|").substr(5) == " 4");
}

TEST_CASE("structure: a rest of four bars counts four", "[analysis][structure]") {
    CHECK(parts_of("C8|Z4|D8|") == "A 1-6 6");
}

TEST_CASE("structure: parts of the same music have the same letter", "[analysis][structure]") {
    CHECK(parts_of("C8|D8|E8|F8||G8|A8|B8|c8||C8|D8|E8|F8|]") == "A 1-4 4; B 5-8 4; A 9-12 4");
    SECTION("whatever pick-up and last bar") {
        CHECK(parts_of("C8|D8|E8|F8||G2|C8|D8|E8|c6|]") == "A 1-4 4; A 5-8 4 after 1/4");
        CHECK(parts_of("|:C8|D8|E8|1F8:|2G8||C8|D8|E8|A8|]") == "A 1-5 4 twice; A 6-9 4");
        CHECK(parts_of("|:C8|D8|1E8|F8:|2G8|A8||C8|D8|1E8|B8:|2B8|B8|]") == "A 1-6 4 twice; A 7-12 4 twice");
    }
    SECTION("but for no other difference") {
        CHECK(parts_of("C8|D8|E8|F8||C8|D8|G8|F8|]") == "A 1-4 4; B 5-8 4");
        CHECK(parts_of("C8|D8||C8|E8|]") == "A 1-2 2; B 3-4 2");
        CHECK(parts_of("C8|D8|E8|F8||C8|D8|E8|]") == "A 1-4 4; B 5-7 3");
        CHECK(parts_of("C8|D8|E8|F8||C4C4|D8|E8|F8|]") == "A 1-4 4; B 5-8 4");
    }
    SECTION("and a label of the file is not given to another") {
        CHECK(parts_of("P:B\nC8|D8|E8|F8||G8|A8|B8|c8||C8|D8|E8|F8|]") == "B 1-4 4; A 5-8 4; B 9-12 4");
        CHECK(parts_of("C8|D8|E8|F8|\nP:A\nG8|A8|B8|c8|") == "B 1-4 4; A 5-8 4");
    }
}

TEST_CASE("structure: a tune without signs is one part unless eight bars come again", "[analysis][structure]") {
    const std::string again = kOne + "|" + kOne + "|";
    CHECK(parts_of(again) == "A 1-8 8; A 9-16 8");
    CHECK(parts_of(again + kOther + "|" + kOther + "|") == "A 1-8 8; A 9-16 8; B 17-24 8; B 25-32 8");
    CHECK(parts_of(kOne + "|" + kOther + "|" + kOne + "|") == "A 1-8 8; B 9-16 8; A 17-24 8");
    CHECK(parts_of(kOne + "|" + kOther + "|") == "A 1-16 16");
    SECTION("seven bars are no evidence: many a part of sixteen only ends otherwise") {
        const std::string other_end = kOne.substr(0, kOne.size() - 2) + "G8";
        CHECK(parts_of(kOne + "|" + other_end + "|") == "A 1-16 16");
    }
    SECTION("the last bar may lack the pick-up") {
        const std::string opening = kOne.substr(0, kOne.size() - 2);
        CHECK(parts_of("G2|" + opening + "c6G2|" + opening + "c6|") == "A 1-8 8 after 1/4; A 9-16 8");
        CHECK(parts_of("G2|" + opening + "c6G2|" + opening + "d6|") == "A 1-16 16 after 1/4");
        CHECK(parts_of("G2|" + opening + "c6G2|" + opening + "c6|" + kOther + "|") == "A 1-24 24 after 1/4");
    }
    SECTION("signs are believed") { CHECK(parts_of(kOne + "|" + kOne + "|" + kOther + ":|") == "A 1-24 24 twice"); }
    SECTION("eight bars count from the beginning") {
        CHECK(parts_of("A8|" + kOne + "|" + kOne + "|B8|e8|f8|g8|a8|b8|c'8|") == "A 1-24 24");
    }
}

TEST_CASE("structure: a P: inside a bar counts from the next, of two the last", "[analysis][structure]") {
    CHECK(parts_of("P:One\nC8|D4[P:Two]D4|E8|") == "One 1-2 2; Two 3-3 1");
    CHECK(parts_of("P:One\nP:Two\nC8|D8|\nP:End\n") == "Two 1-2 2");
}

TEST_CASE("structure: bars that come again are found", "[analysis][structure]") {
    CHECK(groups("C8|D8|C8|E8|D8|C8|") == " 1 3 6; 2 5");
    CHECK(groups("C8|D8|C4C4|C,8|{D}C8|") == " 1 5");
    CHECK(groups("C8|D8|D8|C8|") == " 1 4; 2 3");
    CHECK(groups("G2|C8|D6:|G2|E8|F6:|") == "");
    const std::string music = "G2|C8|D8|C8|D6:|\n|:E8|C8|1D8:|2G8|]";
    const AbcFile file(tune_of(music));
    const tune::Structure found = structure_of(music);
    CHECK(found.like == std::vector<std::uint32_t>{0, 1, 2, 1, 4, 5, 1, 2, 8});
    CHECK(found.different_bars == 5);
    CHECK(found.different_bars == analysis::count_bars(file.only().melody).different);
}

TEST_CASE("structure: a part alone is a melody of its own", "[analysis][structure]") {
    const AbcFile file(tune_of("C8|[CE]8-|\n[K:D]CE8:|\n[K:G]F8|G4[K:C]F4|]"));
    const music::Melody& melody = file.only().melody;
    const tune::Structure found = analysis::find_structure(melody, analysis::number_bars(melody));
    REQUIRE(found.parts.size() == 2);
    const music::Melody alone = analysis::melody_of(melody, found.parts[1]);
    CHECK(analysis::find_note_uses(alone).needed.midi_numbers() == std::vector<int>{65, 66, 67});
    CHECK(analysis::number_bars(alone) == std::vector<int>{1, 2});
    REQUIRE(alone.keys.size() == 2);
    CHECK(alone.keys[0].key.key.tonic.letter == music::Letter::G);
    CHECK(alone.keys[0].before_sound == 0);
    CHECK(alone.keys[1].key.key.tonic.letter == music::Letter::C);
    CHECK(alone.keys[1].before_sound == 2);
    const music::Melody first = analysis::melody_of(melody, found.parts[0]);
    CHECK(first.keys.size() == 2);
    CHECK(first.heads.size() == 5);
}

TEST_CASE("structure: hostile length costs a second at most", "[analysis][structure]") {
    music::Melody melody;
    const auto add_bar = [&](int midi, std::int64_t sixteenths) {
        const auto bar = static_cast<std::uint32_t>(melody.bars.size());
        music::Bar& added = melody.bars.emplace_back();
        added.first_sound = static_cast<std::uint32_t>(melody.sounds.size());
        added.meter = {music::Meter::Kind::fraction, 4, 4};
        added.length = music::Duration(sixteenths, 16);
        music::Sound& sound = melody.sounds.emplace_back();
        sound.head_count = 1;
        sound.first_head = static_cast<std::uint32_t>(melody.heads.size());
        sound.bar = bar;
        sound.length = *added.length;
        sound.at = music::Duration();
        melody.heads.emplace_back().midi = static_cast<std::int16_t>(midi);
    };
    for (int bar = 0; bar < 200'000; ++bar) add_bar(bar % 128, 16 + bar / 128);
    const bool in_parts = GENERATE(false, true);
    CAPTURE(in_parts);
    if (in_parts)
        for (music::Bar& bar : melody.bars) bar.thick_after = true;
    const std::clock_t start = std::clock();
    const tune::Structure found = analysis::find_structure(melody, analysis::number_bars(melody));
    const double seconds = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;  // of the processor
    CHECK(found.parts.size() == (in_parts ? 200'000U : 1U));
    CHECK(found.different_bars == 200'000);
    const char* factor = std::getenv("GAMUT_TIME_FACTOR");  // stretches time budgets, for slow builds
    CHECK(seconds < (factor != nullptr ? std::atof(factor) : 1.0));
}
