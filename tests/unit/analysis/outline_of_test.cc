#include "analysis/outline_of.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"

using analysis::outline_of;
using tune::Outline;
using written::AbcFile;
using written::tune_of;

namespace {

Outline outline_for(const std::string& music, const std::string& fields = "") {
    return outline_of(AbcFile(tune_of(music, fields)).only().melody);
}

// `60@0 62@1680 | 64@0`: MIDI note and ticks, bars parted.
std::string shown(const Outline& outline) {
    std::string text;
    for (std::size_t bar = 0; bar < outline.bars.size(); ++bar) {
        if (bar > 0) text += " |";
        for (std::size_t note = outline.bars[bar].first_note; note < outline.end_of(bar); ++note)
            text += (text.empty() ? "" : " ") + std::to_string(outline.notes[note].midi) + "@" +
                    std::to_string(outline.notes[note].at);
    }
    return text;
}

std::string numbers(const Outline& outline) {
    std::string text;
    for (const auto& bar : outline.bars)
        text += (text.empty() ? "" : " ") + std::to_string(bar.number) + (bar.is_pickup ? "p" : "") +
                (bar.begins_part ? "*" : "");
    return text;
}

}  // namespace

TEST_CASE("outline_of: struck notes with their time in the bar", "[analysis][outline_of]") {
    CHECK(shown(outline_for("C2 D2 E4|F8|")) == "60@0 62@3360 64@6720 | 65@0");
    CHECK(shown(outline_for("(3CDE F2 z2 G2|")) == "60@0 62@1120 64@2240 65@3360 67@10080");
}

TEST_CASE("outline_of: ties are one note, chords their top, grace notes nothing", "[analysis][outline_of]") {
    CHECK(shown(outline_for("C4-C4|D8-|D4 E4|")) == "60@0 | 62@0 | 64@6720");
    CHECK(shown(outline_for("[CEG]8|{d}[EC]4 z4|")) == "67@0 | 64@0");
    CHECK(shown(outline_for("[CG]4-[EG]4|")) == "67@0");
}

TEST_CASE("outline_of: bars as a player counts them, with pick-ups and parts", "[analysis][outline_of]") {
    CHECK(numbers(outline_for("G2|C8|D6:|G2|E8|F6|]")) == "0p* 1 2 2p* 3 4");
    CHECK(numbers(outline_for("C8|D8||E8|\nP:B\nF8|")) == "1* 2 3* 4*");
    CHECK_FALSE(outline_for("|:C8|1 D8:|2 E4|]").bars.at(2).is_pickup);  // a short second ending leads into nothing
}

TEST_CASE("outline_of: repeats and endings", "[analysis][outline_of]") {
    const Outline outline = outline_for("|:C8|[1,3 D8:|[2-4 E8:|F8|");
    REQUIRE(outline.bars.size() == 4);
    CHECK(outline.bars[0].repeat_opens);
    CHECK_FALSE(outline.bars[0].repeat_closes);
    CHECK(outline.bars[1].repeat_closes);
    CHECK(outline.bars[1].endings == 0b101);
    CHECK(outline.bars[2].endings == 0b1110);
    CHECK(outline.bars[3].endings == 0);
}

TEST_CASE("outline_of: a melody without bars or notes", "[analysis][outline_of]") {
    CHECK(outline_of(music::Melody{}) == Outline{});
    CHECK(outline_for("z8|").notes.empty());
}

TEST_CASE("outline_of: times beyond what is kept stay within it and in order", "[analysis][outline_of]") {
    music::Melody melody;
    melody.bars.emplace_back();
    for (std::uint32_t note = 0; note < 3; ++note) {
        music::Sound sound;
        sound.first_head = note;
        sound.head_count = 1;
        sound.length = music::Duration(2000000000, 1);
        melody.sounds.push_back(sound);
        melody.heads.push_back({60, {}, false});
    }
    const Outline outline = outline_of(melody);
    CHECK(outline.notes.at(1).at == tune::kMostTicks);
    CHECK(outline.notes.at(2).at == tune::kMostTicks);
    CHECK(tune::decode_outline(tune::encode_outline(outline)) == outline);
}
