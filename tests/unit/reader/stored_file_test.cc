#include "reader/stored_file.h"

#include <catch2/catch.hpp>

#include "support/collected.h"

TEST_CASE("stored file: settings, header and what was odd, each at its place", "[reader][stored-file]") {
    const collection::StoredFile file = support::stored_file(
        "%abc-2.1\nL:1/8\n\nX:1\nT:Lamp\nR:jig\nM:6/8\nK:G\nGAB d2B|A3 G3|]\n\nX:2\nT:Rope\nT:Cord\nM:6/8\nK:D\nD2E "
        "FGA|w3|]\n");
    CHECK(file.header == "%abc-2.1\nL:1/8");
    REQUIRE(file.settings.size() == 2);
    CHECK(file.settings[0].titles == std::vector<std::string>{"Lamp"});
    CHECK(file.settings[0].line == 4);
    CHECK(file.settings[0].abc.starts_with("X:1\nT:Lamp"));
    CHECK(file.settings[0].facts.needed.midi_numbers() == std::vector<int>{67, 69, 71, 74});
    CHECK(file.settings[0].facts.rhythm->value == "jig");
    CHECK(file.settings[0].facts.uses.empty());  // made again from the text when it is asked for
    CHECK(file.settings[1].titles.size() == 2);
    CHECK_FALSE(file.diagnostics.empty());
    CHECK(file.diagnostics.front().line == 16);
}

TEST_CASE("stored file: a text without a tune keeps nothing", "[reader][stored-file]") {
    const collection::StoredFile file = support::stored_file("Dear Ina,\n\nsee you on Tuesday.\n");
    CHECK(file.settings.empty());
    CHECK(file.header.empty());
}
