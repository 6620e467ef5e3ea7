#include "music/note_expression.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "music/pitch.h"

using music::NoteExpressionFault;
using music::NoteSet;
using music::read_notes;

namespace {

std::string names(const NoteSet& notes, int fifths = 1) {
    std::string text;
    for (const int midi : notes.midi_numbers())
        text += (text.empty() ? "" : " ") + music::to_string(music::spell_midi(midi, fifths));
    return text;
}

}  // namespace

TEST_CASE("notes: what G and D major share from A3 to B5 is the beginners' fourteen", "[music][note_expression]") {
    const std::string fourteen = "A3 B3 D4 E4 F#4 G4 A4 B4 D5 E5 F#5 G5 A5 B5";
    CHECK(names(read_notes("G:major&D:major A3..B5")) == fourteen);
    CHECK(names(read_notes("A3..B5 G:major&D:major")) == fourteen);
    CHECK(names(read_notes("G:major & D:major, A3..B5")) == fourteen);
    CHECK(names(read_notes("G:major& D:major A3..B5")) == fourteen);
    CHECK(names(read_notes("G:major &D:major\tA3..B5")) == fourteen);
    CHECK(names(read_notes("g:maj&d:ionian a3..b5")) == fourteen);
    CHECK(names(read_notes(fourteen)) == fourteen);
    CHECK(names(read_notes("G:major&D:major")) == fourteen);  // A3..B5 is the usual compass
}

TEST_CASE("notes: a note is that note alone", "[music][note_expression]") {
    CHECK(read_notes("A3").midi_numbers() == std::vector<int>{57});
    CHECK(read_notes("C#5 Bb4").midi_numbers() == std::vector<int>{70, 73});
    CHECK(read_notes("c♯5,B♭4").midi_numbers() == std::vector<int>{70, 73});
    CHECK(read_notes("C2").midi_numbers() == std::vector<int>{36});  // a compass binds names, not notes
    CHECK(read_notes("A3 C2 D4..B5").midi_numbers() == std::vector<int>{36, 57});
}

TEST_CASE("notes: a name stands in every octave of the compass", "[music][note_expression]") {
    CHECK(names(read_notes("F#")) == "F#4 F#5");
    CHECK(names(read_notes("B")) == "B3 B4 B5");
    CHECK(names(read_notes("A D4..B5")) == "A4 A5");
    CHECK(names(read_notes("A A4..A4")) == "A4");
    CHECK(names(read_notes("D", {.lowest = 60, .highest = 80})) == "D4 D5");
    CHECK(read_notes("C C-1..G9").size() == 11);
}

TEST_CASE("notes: enharmonic spelling never changes a set", "[music][note_expression]") {
    CHECK(read_notes("F#") == read_notes("Gb"));
    CHECK(read_notes("Db:major") == read_notes("C#:major"));
    CHECK(read_notes("Cb5") == read_notes("B4"));
    CHECK(read_notes("E#4").midi_numbers() == std::vector<int>{65});
}

TEST_CASE("notes: a scale is the names of its mode", "[music][note_expression]") {
    CHECK(names(read_notes("A:dorian A4..A5")) == "A4 B4 C5 D5 E5 F#5 G5 A5");
    CHECK(names(read_notes("D:mix D4..D5")) == "D4 E4 F#4 G4 A4 B4 C5 D5");
    CHECK(read_notes("A:minor") == read_notes("A:aeolian"));
    CHECK(read_notes("A:minor") == read_notes("C:major"));
    for (const char* tonic : {"C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"})
        for (const char* mode : {"major", "dorian", "phrygian", "lydian", "mixolydian", "minor", "locrian"})
            CHECK(read_notes(std::string(tonic) + ":" + mode + " C4..B4").size() == 7);
}

TEST_CASE("notes: a leading minus takes away", "[music][note_expression]") {
    CHECK(names(read_notes("G:major -F#5 G4..G5")) == "G4 A4 B4 C5 D5 E5 G5");
    CHECK(names(read_notes("D:major -C# D4..D5"), 2) == "D4 E4 F#4 G4 A4 B4 D5");
    CHECK(names(read_notes("D:major,-C,-F# D4..D5"), 2) == "D4 E4 G4 A4 B4 C#5 D5");
    CHECK(names(read_notes("G:major -G:major&D:major G4..G5")) == "C5");
}

TEST_CASE("notes: what cannot be read is said in one sentence", "[music][note_expression]") {
    for (const char* text : {"", " ", ",", "H4", "A3 oboe", "G:sideways", "H:major", ":major", "G:", "A3&", "&A3",
                             "A3&&B3", "-", "D4..", "..B5", "D4..H5", "D..B"}) {
        CAPTURE(text);
        CHECK_THROWS_AS(read_notes(text), NoteExpressionFault);
    }
    CHECK_THROWS_WITH(read_notes("A3 H4"), Catch::Contains("\"H4\""));
    CHECK_THROWS_WITH(read_notes("G:major&"), Catch::Contains("&"));
    CHECK_THROWS_WITH(read_notes("B5..D4 A"), Catch::Contains("B5..D4") && Catch::Contains("lower note first"));
}

TEST_CASE("notes: an expression without a note is a fault", "[music][note_expression]") {
    CHECK_THROWS_AS(read_notes("D4..B5"), NoteExpressionFault);
    CHECK_THROWS_AS(read_notes("A3 -A3"), NoteExpressionFault);
    CHECK_THROWS_AS(read_notes("-A3"), NoteExpressionFault);
    CHECK_THROWS_AS(read_notes("C D4..E4"), NoteExpressionFault);
}

TEST_CASE("notes: to use or avoid a name means it in any octave, whatever the compass", "[music][note_expression]") {
    CHECK(music::read_note_anywhere("C#5").midi_numbers() == std::vector<int>{73});
    CHECK(music::read_note_anywhere("C").size() == 11);
    CHECK(music::read_note_anywhere("A").size() == 10);
    CHECK_THROWS_AS(music::read_note_anywhere("G:major"), NoteExpressionFault);
    CHECK_THROWS_AS(music::read_note_anywhere(""), NoteExpressionFault);
    const auto sets = music::read_notes_anywhere("C# F5");
    REQUIRE(sets.size() == 2);
    CHECK(sets[0] == music::read_note_anywhere("Db"));
    CHECK(sets[1].midi_numbers() == std::vector<int>{77});
    CHECK_THROWS_AS(music::read_notes_anywhere(" , "), NoteExpressionFault);
    CHECK_THROWS_AS(music::read_notes_anywhere("C# nonsense"), NoteExpressionFault);
}

TEST_CASE("notes in order: item by item as written", "[music][note_expression]") {
    const auto items = music::read_notes_in_order("C5, F# C#5");
    REQUIRE(items.size() == 3);
    CHECK(items[0].is_one_note);
    CHECK(items[0].notes.midi_numbers() == std::vector<int>{72});
    CHECK_FALSE(items[1].is_one_note);
    CHECK(items[1].notes.midi_numbers() == std::vector<int>{66, 78});  // within A3..B5
    CHECK(items[2].notes.midi_numbers() == std::vector<int>{73});
    CHECK(music::read_notes_in_order("F# C4..B4")[0].notes.midi_numbers() == std::vector<int>{66});
    CHECK_THROWS_AS(music::read_notes_in_order("C5 -D5"), music::NoteExpressionFault);
    CHECK_THROWS_AS(music::read_notes_in_order("A3..B5"), music::NoteExpressionFault);
    CHECK_THROWS_AS(music::read_notes_in_order("C5 nonsense"), music::NoteExpressionFault);
    // What no note of the compass fits would be a step that teaches nothing.
    CHECK_THROWS_WITH(music::read_notes_in_order("E5 C5&D5"), "\"C5&D5\" names no note within the compass");
    CHECK_THROWS_AS(music::read_notes_in_order("F# C4..E4"), music::NoteExpressionFault);
}
