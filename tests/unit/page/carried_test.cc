#include "page/carried.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "page/engine.h"
#include "support/collected.h"

namespace {

constexpr const char* kCarriedTunes =
    "%abc-2.1\nM:2/4\nL:1/8\n\nX:1\nT:Lamp\nR:polka\nK:G\nGA Bc|d2 c2|\n\n% between\n\nX:2\nT:Kettle "
    "</script>\nK:D\nDE FG|A4|\n";

people::Kept something_kept() {
    people::Kept kept;
    music::NoteSet notes;
    notes.add(67);
    kept.players[1] = {"Ina", "ina", std::nullopt, notes};
    kept.events[1] = {1, 2, {base::read_date("2026-10-01"), tune::PlayerEvent::known}, std::nullopt};
    kept.counts[1] = 3;
    return kept;
}

nlohmann::json carried_of(const collection::Selection& which) {
    return nlohmann::json::parse(
        page::carried_json(support::collected(kCarriedTunes, something_kept()), which, "tunes"));
}

}  // namespace

TEST_CASE("a page carries files as they stood, setting by setting", "[page]") {
    const auto carried = carried_of({});
    REQUIRE(carried["files"].size() == 1);
    page::Engine engine;
    engine.read(carried["files"][0]["name"].get<std::string>(), carried["files"][0]["text"].get<std::string>());
    engine.settle();
    CHECK(engine.keep(carried["kept"].dump()) == "{}");
    page::Engine first;
    first.read("tunes.abc", kCarriedTunes);
    first.settle();
    first.keep(
        R"({"players":[{"name":"Ina","notes":[67],"events":[{"tune":2,"what":"known","on":"2026-10-01"}]}],"counts":[{"tune":1,"times":3}]})");
    for (const char* question :
         {R"({"kind":"tunes"})", R"({"kind":"path"})", R"({"kind":"notes","filter":{"players":["Ina"]}})"})
        CHECK(engine.answer(question) == first.answer(question));
}

TEST_CASE("a part of a library is carried with what was said of it", "[page]") {
    collection::Selection some;
    some.title = "lamp";
    auto carried = carried_of(some);
    CHECK(carried["files"][0]["text"].get<std::string>().find("Kettle") == std::string::npos);
    CHECK(carried["kept"]["players"][0]["events"].empty());
    CHECK(carried["kept"]["counts"] == nlohmann::json::parse(R"([{"tune":1,"times":3}])"));
    some.title = "kettle";
    carried = carried_of(some);
    CHECK(carried["kept"]["players"][0]["events"][0]["tune"] == 1);
}

TEST_CASE("a library stands in the built page so that no title ends its element", "[page]") {
    const std::string built = R"(<p></p><script type="application/json" id="library">{}</script><script>go()</script>)";
    const auto whole = page::with_library(built, R"({"title":"</script><b>"})");
    REQUIRE(whole);
    CHECK(
        *whole ==
        R"(<p></p><script type="application/json" id="library">{"title":"\u003c/script>\u003cb>"}</script><script>go()</script>)");
    CHECK_FALSE(page::with_library("<p>another page</p>", "{}"));
}
