#include "analysis/rhythm_beats.h"

#include <catch2/catch.hpp>

#include "../abc/written.h"

using music::Duration;
using written::AbcFile;
using written::tune_of;

TEST_CASE("beats: each is counted by how it is filled", "[analysis][rhythm]") {
    const AbcFile file(tune_of("G2 GA G>A G<A|G/A/B/c/ (3GAB (3:2:2G2A GB/B/|G3 A G4|", "M:4/4\n"));
    const analysis::Beats beats = analysis::count_beats(file.only().melody, {1, 4});
    CHECK(beats.all == 10);  // the note after a dotted crotchet begins none
    CHECK(beats.divided == 7);
    CHECK(beats.even == 2);
    CHECK(beats.long_short == 2);  // and the triplet of two notes
    CHECK(beats.short_long == 1);
    CHECK(beats.runs == 1);
    CHECK(beats.uneven() == 3);
    CHECK(beats.pairs() == 5);
}

TEST_CASE("beats: of a dotted crotchet", "[analysis][rhythm]") {
    const AbcFile file(tune_of("GAB G2A|G>AB G3|", "M:6/8\n"));
    const analysis::Beats beats = analysis::count_beats(file.only().melody, {3, 8});
    CHECK(beats.all == 4);
    CHECK(beats.threes == 2);
    CHECK(beats.two_thirds_first == 1);
    CHECK(beats.dotted_threes == 1);
}

TEST_CASE("beats: a part ends on three of them, the second whole or divided", "[analysis][rhythm]") {
    const auto ends = [](const std::string& music) {
        const AbcFile file(tune_of(music, "M:4/4\n"));
        const analysis::PartEnds found = analysis::count_part_ends(file.only().melody, {1, 4});
        return std::pair(found.on_three_beats, found.all);
    };
    CHECK(ends("GABc dcBA|G2 B2 G4:|GABc dcBA|G2 BA G2:|") == std::pair(2, 2));
    CHECK(ends("GABc dcBA|G4 G2 B2:|GABc dcBA|GABG G2:|") == std::pair(0, 2));
    CHECK(ends("GABc dcBA|G2 B2 G2||GABc dcBA|GABc dcBA|]") == std::pair(1, 2));
}

TEST_CASE("beats: a bar of three has weight on its second", "[analysis][rhythm]") {
    const AbcFile file(tune_of("G>A B2 B2|G4 A2|G2 A2 B2|GA BA GA|", "M:3/4\n"));
    const analysis::BarsOfThree bars = analysis::count_bars_of_three(file.only().melody, {1, 4});
    CHECK(bars.all == 4);
    CHECK(bars.weight_on_second == 1);
}
