#include "analysis/leaps.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"
#include "analysis/note_uses.h"
#include "music/pitch.h"

using written::AbcFile;
using written::tune_of;

namespace {

// `1 repeats 2 steps 0 skips 1 leaps, C4 G4 in 3`.
std::string leaps(const std::string& music, const std::string& key = "C") {
    const AbcFile file(tune_of(music, "", key));
    const music::Melody& melody = file.only().melody;
    const tune::Leaps found = analysis::find_leaps(melody, analysis::number_bars(melody));
    std::string text = std::to_string(found.repeats) + " repeats " + std::to_string(found.steps) + " steps " +
                       std::to_string(found.skips) + " skips " + std::to_string(found.leaps) + " leaps";
    if (found.largest)
        text += ", " + music::to_string(music::spell_midi(found.largest->from)) + " " +
                music::to_string(music::spell_midi(found.largest->to)) + " in " + std::to_string(found.largest->bar);
    return text;
}

// `A4 in 2 on 5/2 strong`, one for each note, parted by semicolons.
std::string lone(const std::string& music, const std::string& meter = "4/4") {
    const AbcFile file(tune_of(music, "M:" + meter + "\n"));
    const music::Melody& melody = file.only().melody;
    std::string text;
    for (const tune::LoneNote& note : analysis::find_lone_notes(melody, analysis::number_bars(melody))) {
        text += (text.empty() ? "" : "; ") + music::to_string(music::spell_midi(note.midi)) + " in " +
                std::to_string(note.bar);
        if (note.beat) text += " on " + music::to_string(*note.beat);
        text += note.is_strong ? " strong" : " weak";
    }
    return text;
}

}  // namespace

TEST_CASE("leaps: moves are told apart by semitones, up and down", "[analysis][leaps]") {
    CHECK(leaps("C4C4|") == "1 repeats 0 steps 0 skips 0 leaps");
    CHECK(leaps("C4^C4|D4C4|") == "0 repeats 3 steps 0 skips 0 leaps, D4 C4 in 2");
    CHECK(leaps("C4_E4|C4E4|") == "0 repeats 0 steps 3 skips 0 leaps, C4 E4 in 2");
    CHECK(leaps("C4F4|C4G4|") == "0 repeats 0 steps 0 skips 3 leaps, C4 G4 in 2");
    CHECK(leaps("c4C4|D4c4|") == "0 repeats 1 steps 0 skips 2 leaps, C5 C4 in 1");
    CHECK(leaps("z8|") == "0 repeats 0 steps 0 skips 0 leaps");
}

TEST_CASE("leaps: the signature counts", "[analysis][leaps]") {
    CHECK(leaps("D4F4|", "D") == "0 repeats 0 steps 1 skips 0 leaps, D4 F#4 in 1");
}

TEST_CASE("leaps: the first of equally wide ones is named, by the bar of its second note", "[analysis][leaps]") {
    CHECK(leaps("G2|C8|G8|") == "0 repeats 0 steps 0 skips 2 leaps, G4 C4 in 1");
}

TEST_CASE("leaps: no move across a rest, none by a tie, none by grace notes", "[analysis][leaps]") {
    CHECK(leaps("C4z2c2|") == "0 repeats 0 steps 0 skips 0 leaps");
    CHECK(leaps("C8-|C4D4|") == "0 repeats 1 steps 0 skips 0 leaps, C4 D4 in 2");
    CHECK(leaps("C4{c'}D4|") == "0 repeats 1 steps 0 skips 0 leaps, C4 D4 in 1");
}

TEST_CASE("leaps: of a chord the top note moves", "[analysis][leaps]") {
    CHECK(leaps("[CE]4[DC,]4|") == "0 repeats 1 steps 0 skips 0 leaps, E4 D4 in 1");
}

TEST_CASE("leaps: every ending follows what stands before the first", "[analysis][leaps]") {
    CHECK(leaps("C8|1D8:|2c8|]") == "0 repeats 1 steps 0 skips 1 leaps, C4 C5 in 3");
    CHECK(leaps("C8|1D8|c8:|2D8|c8|]") == "0 repeats 2 steps 0 skips 2 leaps, D4 C5 in 3");
    CHECK(leaps("C8|1D8:|2D8||E8|1F8:|2F8|]") == "0 repeats 5 steps 0 skips 0 leaps, C4 D4 in 2");
}

TEST_CASE("lone notes: those struck once, with bar and beat", "[analysis][leaps]") {
    // Source of the beats: common practice, no source.
    CHECK(lone("C4C4|C2D2C2C2|") == "D4 in 2 on 3/2 weak");
    CHECK(lone("C4C4|C4D4|") == "D4 in 2 on 2 strong");
    CHECK(lone("CCC CCD|E3 C3|", "6/8") == "D4 in 1 on 8/3 weak; E4 in 2 on 1 strong");
    CHECK(lone("C2D2C2|C2C2E2|", "3/4") == "D4 in 1 on 2 weak; E4 in 2 on 3 weak");
    CHECK(lone("C4D4C2E2|", "3/2") == "D4 in 1 on 2 strong; E4 in 1 on 7/2 weak");
    CHECK(lone("CCDC|", "2/4") == "D4 in 1 on 2 strong");
    CHECK(lone("CCCCCDC|", "7/8") == "D4 in 1 on 6 strong");
    CHECK(lone("CCD|", "none") == "D4 in 1 weak");
}

TEST_CASE("lone notes: in a pick-up, tied, in a chord, as a grace note", "[analysis][leaps]") {
    CHECK(lone("D2|C8|C8|") == "D4 in 0 on 5/2 weak");
    CHECK(lone("D4|C8|C8|") == "D4 in 0 on 2 strong");
    CHECK(lone("D8-|D8|C4C4|") == "D4 in 1 on 1 strong");
    CHECK(lone("C4[CE]4|") == "E4 in 1 on 2 strong");
    CHECK(lone("C4{D}C4|") == "");
    CHECK(lone("C8|1C8:|2C4D2|]").ends_with(" on 2 strong"));  // a short ending is no pick-up
}
