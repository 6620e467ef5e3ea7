#include "analysis/heard_place.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"
#include "analysis/outline_of.h"

using analysis::Begins;
using analysis::find_place;
using analysis::HeardCosts;
using analysis::HeardPlace;
using analysis::read_heard;

namespace {

HeardPlace place(const std::string& phrase, const std::string& music, bool at_start = false) {
    const auto found = find_place(
        read_heard(phrase), analysis::outline_of(written::AbcFile(written::tune_of(music)).only().melody), at_start);
    REQUIRE(found.has_value());
    return *found;
}

constexpr HeardCosts kCosts;
const std::string kHeardReel = "G2AB A2G2|c2Bc d2BG|A2FD DEF2|G4 G4|";

}  // namespace

TEST_CASE("heard_place: as it stands it costs nothing", "[analysis][heard_place]") {
    const HeardPlace found = place("G A B A G c B c", kHeardReel);
    CHECK(found.cost == Approx(0));
    CHECK(found.hit == analysis::Hit{0, Begins::tune, 0, 1});
    CHECK(place("c B c d B G", kHeardReel).cost == Approx(kCosts.bar));
    CHECK(place("c B c d B G", kHeardReel).hit.bar == 2);
    CHECK(place("B c d B G A", kHeardReel).cost == Approx(kCosts.within));
}

TEST_CASE("heard_place: what differs costs by what it is", "[analysis][heard_place]") {
    CHECK(place("G A B A G G c B c", kHeardReel).cost == Approx(kCosts.repeated));
    CHECK(place("G A B A G G c B c", kHeardReel).hit.errors == 0);
    CHECK(place("G A B B G c B c d B", kHeardReel).cost == Approx(kCosts.neighbour));
    CHECK(place("G A B D G c B c d B", kHeardReel).cost == Approx(kCosts.wrong));
    CHECK(place("G A B D G c B c d B", kHeardReel).hit.errors == 1);
    CHECK(place("G A B A c B c d B", kHeardReel).cost == Approx(kCosts.left_out));
    // A fold by an octave in the middle.
    CHECK(place("G A B A G C B, C D", kHeardReel).cost == Approx(kCosts.octave));
    // All an octave off is no fold.
    CHECK(place("g a b a g c' b c'", kHeardReel).cost == Approx(0));
    // In capitals alone no octave is told.
    CHECK(place("G A B A G C B C D B", kHeardReel).cost == Approx(0));
}

TEST_CASE("heard_place: a triplet played out or drawn together", "[analysis][heard_place]") {
    const std::string reel = "G2 (3Bcd g2fe|d2BG A2FD|GABc d2ef|g4 G4|";
    CHECK(place("G B d g f e d", reel).cost == Approx(kCosts.passing));
    CHECK(place("G B c d g f e d", reel).cost == Approx(0));
}

TEST_CASE("heard_place: another key, and the start alone", "[analysis][heard_place]") {
    const HeardPlace found = place("A B ^c B A d ^c d", kHeardReel);
    CHECK(found.cost == Approx(kCosts.another_key));
    CHECK(found.hit.semitones == -2);
    CHECK(place("c B c d B G", kHeardReel, true).cost > kCosts.wrong);
    CHECK_FALSE(find_place(read_heard("C D E"), {}, false).has_value());
}
