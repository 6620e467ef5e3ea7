#include "hands/near_miss.h"

#include <catch2/catch.hpp>

#include "music/note_expression.h"
#include "unit/hands/melodies.h"

using hands::StandIn;
using hands_test::line_of_notes;

namespace {

const music::NoteSet kFromD4 = music::read_notes("C:major D4..B5");

hands::NearMiss near_miss(const std::string& music, const music::NoteSet& have = kFromD4) {
    return hands::find_near_miss(line_of_notes(music), have);
}

}  // namespace

TEST_CASE("what fits lacks nothing", "[hands]") {
    const auto found = near_miss("DEFG|");
    CHECK(found.lacks.empty());
    CHECK(found.notes == 4);
    CHECK(found.missing == 0);
    CHECK_FALSE(found.fold);
}

// Common practice, no source: once and weak, a neighbour does; on a strong beat or held, none does.
TEST_CASE("whether a neighbour could stand in", "[hands]") {
    const auto once = near_miss("D2EC D4|");
    REQUIRE(once.lacks.size() == 1);
    CHECK(once.lacks[0].midi == 60);
    CHECK(once.lacks[0].count == 1);
    CHECK(once.lacks[0].strong == 0);
    CHECK(once.lacks[0].stand_in == StandIn::yes);
    CHECK(once.lacks[0].neighbour == 62);
    CHECK(once.lacks[0].bars == std::vector<int>{1});

    const auto again = near_miss("DCEC D4|DCDE D4|");
    CHECK(again.lacks[0].count == 3);
    CHECK(again.lacks[0].bars == std::vector<int>{1, 2});
    CHECK(again.lacks[0].stand_in == StandIn::perhaps);

    const auto strong = near_miss("CDEF G4|");
    CHECK(strong.lacks[0].strong == 1);
    CHECK(strong.lacks[0].stand_in == StandIn::no);
    CHECK_FALSE(strong.lacks[0].neighbour);

    const auto held = near_miss("DC2D D4|");
    CHECK(held.lacks[0].strong == 0);
    CHECK(held.lacks[0].held == 1);
    CHECK(held.lacks[0].stand_in == StandIn::no);

    const auto alone = near_miss("DB,CB,|", music::read_notes("D4"));  // no neighbour is at hand either
    CHECK(alone.lacks[1].midi == 60);
    CHECK(alone.lacks[1].stand_in == StandIn::no);
}

TEST_CASE("a tied note is one, and held", "[hands]") {
    const auto found = near_miss("DE FC-|CD E2|");
    REQUIRE(found.lacks.size() == 1);
    CHECK(found.lacks[0].count == 1);
    CHECK(found.lacks[0].held == 1);
    CHECK(found.notes == 6);
}

TEST_CASE("a note beneath another may be left out", "[hands]") {
    const auto found = near_miss("D2 [CG]2|[CE]2|");
    REQUIRE(found.lacks.size() == 1);
    CHECK(found.lacks[0].is_beneath);
    CHECK_FALSE(near_miss("[CG]2 C2|").lacks[0].is_beneath);
    CHECK_FALSE(near_miss("C2 [CG]2|").lacks[0].is_beneath);
}

TEST_CASE("missing notes folded an octave, and the leap that makes", "[hands]") {
    const auto found = near_miss("DEDB, D4|A,2 D2 D4|");
    REQUIRE(found.fold);
    CHECK(found.fold->notes == 2);
    CHECK(found.fold->up);
    CHECK_FALSE(found.fold->down);
    CHECK(found.fold->largest_leap == 9);  // D4 to B4, where a third fell
    CHECK(found.fold->leap_before == 3);
    CHECK(found.fold->leap_bar == 1);

    const auto top = near_miss("d c' d b d4|");
    REQUIRE(top.fold);
    CHECK(top.fold->down);
    CHECK(top.fold->largest_leap == 2);
    CHECK(top.fold->leap_before == 10);

    CHECK_FALSE(near_miss("D ^F|").fold);   // F sharp is nowhere at hand
    CHECK_FALSE(near_miss("D A,,|").fold);  // two octaves away
    CHECK_FALSE(near_miss("DE|", {}).fold);
}

TEST_CASE("folding as a question of note sets", "[hands]") {
    CHECK(hands::fits_folded(music::read_notes("A3 B3 D4"), kFromD4));
    CHECK_FALSE(hands::fits_folded(music::read_notes("F#4"), kFromD4));
    CHECK(hands::fits_folded({}, {}));
    CHECK_FALSE(hands::fits_folded(music::read_notes("A3"), {}));
}
