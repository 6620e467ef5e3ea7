#include "answers/tune_named.h"

#include <catch2/catch.hpp>

#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::Reason;

const std::string kLamps =
    "X:1\nT:The Lamp\nK:G\nG2B dBG|]\n\nX:2\nT:The Lamp Post\nK:D\nD2FA d4|]\n\n"
    "X:3\nT:Post Haste\nK:D\nD4 A4|]\n";

}  // namespace

TEST_CASE("tune named: an id, a whole title, a part that only one has", "[answers][tune_named]") {
    const collection::Memory memory = support::collected(kLamps);
    CHECK(answers::tune_named(memory, "3").titles.front() == "Post Haste");
    CHECK(answers::tune_named(memory, "lamp").titles.front() == "The Lamp");  // whole, before a part of another
    CHECK(answers::tune_named(memory, "haste").titles.front() == "Post Haste");
}

TEST_CASE("tune named: several are all told, none is told with what is near", "[answers][tune_named]") {
    const collection::Memory memory = support::collected(kLamps);
    const answers::Refusal several = support::refusal_of([&] { answers::tune_named(memory, "post"); });
    CHECK(several.reason == Reason::several_tunes);
    CHECK(several.tunes.size() == 2);
    const answers::Refusal none =
        support::refusal_of([&] { answers::tune_named(memory, "Post Hase", answers::Part::must); });
    CHECK(none.reason == Reason::unknown_tune);
    CHECK(none.part == answers::Part::must);
    REQUIRE_FALSE(none.others.empty());
    CHECK(none.others.front() == "Post Haste (3)");
}

TEST_CASE("tune named: settings by their own ids, one title of several settings of a tune", "[answers][tune_named]") {
    const std::string twice =
        "X:1\nT:Lamp\nM:6/8\nL:1/8\nK:G\n|:G2B dBG|A2c ecA|B2d gdB|A2F D3|G2B dBG|A2c ecA|B2d gdB|AFD "
        "G3:|\n\nX:2\nT:Lamp\nM:6/8\nL:1/8\nK:G\n|:G2B dBG|A2c ecA|B2d gdB|A2F D3|G2B dBG|A2c ecA|B2d gdB|AFD G3:|\n";
    const collection::Memory memory = support::collected(twice);
    CHECK(answers::setting_named(memory, "2", false).own.value == 2);
    CHECK(answers::setting_named(memory, "lamp", true).own.value == 1);
    const answers::Refusal several = support::refusal_of([&] { answers::setting_named(memory, "lamp", false); });
    CHECK(several.reason == Reason::several_settings);
    CHECK(several.tunes.size() == 2);
}
