#include "page/engine.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "answers/notes.h"
#include "answers/path.h"
#include "answers/tunes.h"
#include "report/pages/listing.h"
#include "report/pages/notes_page.h"
#include "report/pages/path_page.h"
#include "report/write.h"
#include "support/collected.h"

using Catch::Matchers::Contains;

namespace {

constexpr const char* kPageTunes =
    "X:1\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:D\n|:DFA d2A|BAF A3:|\n\n"
    "X:2\nT:Kettle\nM:2/4\nL:1/8\nK:G\nGA Bc|d2 c2|B2 A2|G4|]\n\n"
    "X:3\nT:Gate\nM:2/4\nL:1/8\nK:G\nGA B2|A2 G2|]\n";

page::Engine engine_of(const char* abc) {
    page::Engine engine;
    engine.read("tunes.abc", abc);
    engine.settle();
    return engine;
}

nlohmann::json json_of(const std::string& text) { return nlohmann::json::parse(text); }

}  // namespace

TEST_CASE("an answer of the page is the text that the command line prints", "[page]") {
    const page::Engine engine = engine_of(kPageTunes);
    const collection::Memory same = support::collected(kPageTunes);
    answers::TunesQuestion tunes;
    tunes.filter.fits = {"G4 A4 B4"};
    CHECK(engine.answer(R"({"kind":"tunes","filter":{"fits":["G4 A4 B4"]}})") ==
          report::write(report::Format::json, answers::answer(same, tunes), {}));
    answers::NotesQuestion notes;
    notes.have = "G4 A4 B4";
    CHECK(engine.answer(R"({"kind":"notes","have":"G4 A4 B4"})") ==
          report::write(report::Format::json, answers::answer(same, notes), {}));
    answers::PathQuestion path;
    path.have = "G4 A4";
    path.filter.columns.rhythm = "jig";
    CHECK(engine.answer(R"({"kind":"path","have":"G4 A4","filter":{"rhythm":"jig"}})") ==
          report::write(report::Format::json, answers::answer(same, path), {}));
}

TEST_CASE("the ladder counts what the worth of notes counts", "[page]") {
    const page::Engine engine = engine_of(kPageTunes);
    const auto rungs = json_of(engine.answer(R"({"kind":"rungs","pitches":[67,69,71]})"));
    const auto notes = json_of(engine.answer(R"({"kind":"notes","have":"G4 A4 B4"})"));
    CHECK(rungs["open"] == notes["open_now"]);
    CHECK(rungs["tunes"] == notes["tunes"]);
    CHECK(rungs["brackets"] == json_of(R"([{"opens":1,"pitches":[72,74]},{"opens":1,"pitches":[62,66,74]}])"));
    CHECK(json_of(engine.answer(R"({"kind":"rungs"})"))["open"] == 0);
}

TEST_CASE("the bars of a tune tell time, pitch and the way's place", "[page]") {
    const page::Engine engine = engine_of(kPageTunes);
    const auto bars = json_of(engine.answer(R"({"kind":"bars","tune":"lamp"})"));
    REQUIRE(bars["bars"].size() == 2);
    CHECK(bars["bars"][0]["opens"] == true);
    CHECK(bars["bars"][1]["closes"] == true);
    CHECK(bars["bars"][1]["number"] == 2);
    CHECK(bars["bars"][0]["sounds"][3] ==
          json_of(R"({"at":[3,8],"length":[1,4],"name":"D","pitch":74,"tied":false,"way":3})"));
    CHECK(bars["pace"]["beats_in_bar"] == 2);
    CHECK(json_of(engine.answer(R"({"kind":"tune","tune":"lamp","instrument":"whistle-d"})"))["tune"]["on"]["ways"]
              .size() == 9);
}

TEST_CASE("players stand in the page as they stand in a library", "[page]") {
    page::Engine engine = engine_of(kPageTunes);
    CHECK(
        engine.keep(
            R"({"players":[{"name":"Ina","notes":[67,69],"events":[{"tune":3,"what":"known","on":"2026-10-01"}]}]})") ==
        "{}");
    CHECK(json_of(engine.answer(R"({"kind":"notes","filter":{"players":["ina"]}})"))["have"] ==
          json_of(R"(["G4","A4","B4"])"));
    CHECK(json_of(engine.answer(R"({"kind":"next","player":"Ina"})"))["player"] == "Ina");
    CHECK(json_of(engine.keep("nonsense"))["fault"] == "this is not what a page keeps of players and tunes");
    CHECK(json_of(engine.answer(R"({"kind":"next","player":"Ina"})"))["player"] == "Ina");
}

TEST_CASE("what has no answer comes back as a reason", "[page]") {
    const page::Engine engine = engine_of(kPageTunes);
    CHECK(json_of(engine.answer(R"({"kind":"tune","tune":"lantern"})"))["refused"]["reason"] == "unknown-tune");
    CHECK(json_of(engine.answer(R"({"kind":"next","player":"Nobody"})"))["refused"]["reason"] == "no-players");
    CHECK(json_of(engine.answer(R"({"kind":"together"})"))["refused"]["reason"] == "two-players");
    CHECK(json_of(engine.answer(R"({"kind":"dance"})"))["fault"] == "no such question: dance");
    CHECK(json_of(engine.answer(R"({"kind":"tunes","sort":"beauty"})"))["fault"] == "no such order: beauty");
    CHECK_THAT(json_of(engine.answer(R"({"kind":"tunes","filter":{"colour":"red"}})"))["fault"].get<std::string>(),
               Contains("does not know"));
    CHECK(json_of(engine.answer("["))["fault"].is_string());
    CHECK(json_of(engine.answer(R"({"kind":"tune"})"))["fault"].is_string());
    CHECK(json_of(engine.answer(R"({"kind":"evening","minutes":100000})"))["fault"] == "minutes is out of range");
}

TEST_CASE("a file that is no tunebook is told, and the others answer", "[page]") {
    page::Engine engine;
    CHECK(json_of(engine.read("empty.abc", ""))["remark"] == "is empty");
    CHECK(json_of(engine.read("picture.abc", std::string("\x89PNG\r\n\x1a\n\0\0\0\rIHDR", 16)))["remark"] ==
          "is not a text file");
    CHECK(json_of(engine.read("letter.txt", "Dear all,\n"))["remark"] == "holds no tune");
    CHECK(json_of(engine.read("old.abc", "X:1\nT:Caf\xe9\nK:C\nCDE|\n"))["tunes"] == 1);
    engine.settle();
    CHECK(json_of(engine.answer(R"({"kind":"tunes"})"))["tunes"][0]["title"] == "Café");
}
