#include "hands/drill.h"

#include <catch2/catch.hpp>

#include "music/note_expression.h"

using Bars = std::vector<std::vector<int>>;

TEST_CASE("a drill: all notes up and down, then the new one between its neighbours", "[hands]") {
    const auto drill = hands::make_drill(music::read_notes("A4 B4 C5 D5 E5"), music::read_notes("C5"));
    REQUIRE(drill.size() == 2);
    CHECK(drill[0].bars == Bars{{69, 71, 72, 74}, {76, 74, 72, 71}, {69}});
    CHECK(drill[1].about == 72);
    CHECK(drill[1].bars == Bars{{71, 72, 74, 72}, {74, 72, 71, 72}, {69, 71, 72, 74}, {76, 74, 72, 71}});
}

TEST_CASE("a new note at the end of the compass, alone, or not among the notes", "[hands]") {
    const auto top = hands::make_drill(music::read_notes("A4 B4 C5"), music::read_notes("C5"));
    CHECK(top[1].bars == Bars{{71, 72, 71, 72}, {69, 72, 71, 72}, {69, 71, 72, 71}, {72, 71, 69, 72}});
    const auto two = hands::make_drill(music::read_notes("B4 C5"), music::read_notes("B4"));
    CHECK(two[1].bars == Bars{{72, 71, 72, 71}, {72, 71, 72, 71}, {72, 72, 71, 72}, {71, 72, 72, 71}});
    const auto alone = hands::make_drill(music::read_notes("C5"), music::read_notes("C5"));
    CHECK(alone[0].bars == Bars{{72}});
    CHECK(hands::make_drill(music::read_notes("A4"), music::read_notes("C5")).size() == 1);
    CHECK(hands::make_drill({}, {}).empty());
}

TEST_CASE("a new note is learnt between its neighbours in the scale, not beside its own sharp", "[hands]") {
    const auto drill = hands::make_drill(music::read_notes("A4 B4 C5 C#5 D5 E5"), music::read_notes("C5"));
    CHECK(drill[1].bars == Bars{{71, 72, 74, 72}, {74, 72, 71, 72}, {69, 71, 72, 74}, {76, 74, 72, 71}});
    // Of F and F# the nearer to G.
    const auto g = hands::make_drill(music::read_notes("E4 F4 F#4 G4 A4"), music::read_notes("G4"));
    CHECK(g[1].bars == Bars{{66, 67, 69, 67}, {69, 67, 66, 67}, {64, 66, 67, 69}, {69, 69, 67, 66}});
}

TEST_CASE("a drill as notes under the hand", "[hands]") {
    const auto line = hands::line_of(hands::make_drill(music::read_notes("A4 B4 C5"), {})[0]);
    REQUIRE(line.size() == 5);
    CHECK(line[4].midi == 69);
    CHECK(line[4].bar == 2);
    CHECK(line[4].bar_index == 1);
    CHECK(line[4].length == hands::kLongNote);
}
