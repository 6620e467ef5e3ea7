#include "answers/tune_shapes.h"

#include <catch2/catch.hpp>

#include "support/collected.h"

TEST_CASE("tune shapes: of the records asked for, in their order, without those that have no note",
          "[answers][tune-shapes]") {
    const collection::Memory memory = support::collected(
        "X:1\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:G\n|:G2B dBG|A2c ecA|G2B dBd|e2d B2A:|\n\n"
        "X:2\nT:Silence\nM:6/8\nL:1/8\nK:G\nz6|z6|]\n\n"
        "X:3\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\n|:D2FA dAFA|Bcde f2ed|cABc defg|a2ge d4:|\n");
    const auto shapes =
        answers::shapes_of(memory, {*memory.tune_by_id({3}), *memory.tune_by_id({2}), *memory.tune_by_id({1})});
    REQUIRE(shapes.size() == 2);
    CHECK(shapes[0].first_note == 62);
    CHECK(shapes[1].first_note == 67);
}
