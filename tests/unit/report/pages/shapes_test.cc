// The shapes of schema/output.md that programs read: every answer parses, and holds the keys that are promised.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

#include "../../abc/written.h"
#include "analysis/analyse.h"
#include "music/note_expression.h"
#include "report/pages/import_summary.h"
#include "report/pages/listing.h"
#include "report/pages/marks.h"
#include "report/pages/path_page.h"
#include "report/pages/reading.h"
#include "report/pages/record_of.h"
#include "report/pages/tune_page.h"

using nlohmann::json;
using written::AbcFile;

namespace {

const std::string kTune =
    "X:3\nT:Rain on the Slipway\nT:Wet \"Stones\"\nR:jig\nM:6/8\nL:1/8\nK:Ador\n{g}A2B c2d|eAA A3:|\n";

tune::TuneRecord record_of(const std::string& abc) {
    const AbcFile file(abc);
    tune::TuneRecord record = report::record_of(file.only(), analysis::analyse(file.only()), "winter/term.abc");
    record.id = {12};
    record.setting = {15};
    return record;
}

void check_keys(const json& object, std::initializer_list<const char*> keys) {
    for (const char* key : keys) {
        CAPTURE(key);
        CHECK(object.contains(key));
    }
}

void check_row(const json& row) {
    check_keys(row, {"id",        "title",          "titles",         "file",        "number",     "line",
                     "rhythm",    "rhythm_basis",   "meter",          "key_stated",  "tonic",      "mode",
                     "key_basis", "key_candidates", "key_in_force",   "key_decided", "pitches",    "ornament_pitches",
                     "notes",     "lowest",         "highest",        "semitones",   "note_count", "first_note",
                     "last_note", "bars",           "different_bars", "tags",        "count"});
}

}  // namespace

TEST_CASE("shapes: a listing holds a row for each tune with every fact", "[report][shapes]") {
    answers::TunesAnswer listing;
    listing.rows = {record_of(kTune)};
    listing.matched = 1;
    listing.left_out = 4;
    const std::string text = report::as_json(listing);
    CHECK(text.ends_with("}\n"));
    const json answer = json::parse(text);
    CHECK(answer["version"] == 1);
    CHECK(answer["matched"] == 1);
    CHECK(answer["left_out"] == 4);
    CHECK(answer["open_keys"] == 0);
    REQUIRE(answer["tunes"].size() == 1);
    const json& row = answer["tunes"][0];
    check_row(row);
    CHECK_FALSE(row.contains("missing"));
    CHECK(row["id"] == 12);
    CHECK(row["title"] == "Rain on the Slipway");
    CHECK(row["titles"] == json({"Rain on the Slipway", "Wet \"Stones\""}));
    CHECK(row["file"] == "winter/term.abc");
    CHECK(row["number"] == "3");
    CHECK(row["line"] == 1);
    CHECK(row["rhythm"] == "jig");
    CHECK(row["rhythm_basis"] == "stated");
    CHECK(row["meter"] == "6/8");
    CHECK(row["key_stated"] == "A dorian");
    CHECK(row["tonic"] == "A");
    CHECK(row["key_basis"] == "stated");  // the notes leave it open, and K: says it
    CHECK(row["key_decided"].is_boolean());
    CHECK(row["pitches"] == json({69, 71, 72, 74, 76}));
    CHECK(row["ornament_pitches"] == json({79}));
    CHECK(row["notes"] == json({"A4", "B4", "C5", "D5", "E5"}));
    CHECK(row["lowest"] == "A4");
    CHECK(row["highest"] == "E5");
    CHECK(row["semitones"] == 7);
    CHECK(row["note_count"] == 8);
    CHECK(row["first_note"] == "A4");
    CHECK(row["last_note"] == "A4");
    CHECK(row["bars"] == 2);
    CHECK(row["different_bars"] == 2);
}

TEST_CASE("shapes: missing notes are named when a note set was given, and only then", "[report][shapes]") {
    answers::TunesAnswer listing;
    listing.rows = {record_of(kTune)};
    listing.matched = 1;
    listing.have = music::read_notes("A4 B4 D5 E5");
    CHECK(json::parse(report::as_json(listing))["tunes"][0]["missing"] == json({"C5"}));
    listing.have = music::read_notes("A4 B4 C5 D5 E5");
    CHECK(json::parse(report::as_json(listing))["tunes"][0]["missing"] == json::array());
}

TEST_CASE("shapes: what is unknown is null, never made up", "[report][shapes]") {
    answers::TunesAnswer listing;
    listing.rows = {record_of("T:\nK:C\nz4|\n")};
    const json row = json::parse(report::as_json(listing))["tunes"][0];
    check_row(row);
    for (const char* key : {"title", "number", "rhythm", "rhythm_basis", "tonic", "mode", "key_basis", "lowest",
                            "highest", "semitones", "first_note", "last_note"}) {
        CAPTURE(key);
        CHECK(row[key].is_null());
    }
    CHECK(row["titles"] == json::array());
    CHECK(row["pitches"] == json::array());
    CHECK(row["meter"] == "none");
}

TEST_CASE("shapes: a listing as a spreadsheet has one line a tune and as many fields as titles", "[report][shapes]") {
    answers::TunesAnswer listing;
    listing.rows = {record_of(kTune), record_of("T:\nK:C\nz4|\n")};
    const report::Document document = report::tabulate(listing);
    REQUIRE(document.blocks.size() == 1);
    const auto& table = std::get<report::Table>(document.blocks[0]);
    REQUIRE(table.rows.size() == 2);
    for (const auto& row : table.rows) CHECK(row.size() == table.columns.size());
    CHECK(table.columns.back().title == "key_basis");
    CHECK(std::get<std::string>(table.rows.front().back()) == "stated");
}

TEST_CASE("shapes: a listing for people ends with what matched and what was left out, and why", "[report][shapes]") {
    answers::TunesAnswer listing;
    listing.rows = {record_of(kTune)};
    listing.matched = 3;
    listing.left_out = 9;
    listing.why = {{"fits", 7}, {"mode", 0}, {"rhythm", 2}};
    listing.open_keys = 2;
    std::string words;
    for (const auto& block : report::describe(listing).blocks)
        if (const auto* paragraph = std::get_if<report::Paragraph>(&block)) words += paragraph->text + "\n";
    CHECK_THAT(words, Catch::Contains("3 tunes match") && Catch::Contains("9 left out") &&
                          Catch::Contains("7 by --fits") && Catch::Contains("2 by --rhythm") &&
                          Catch::Contains("Of these, 2 have that key among the candidates"));
    CHECK_THAT(words, !Catch::Contains("--mode"));
}

TEST_CASE("shapes: melodies as they were read, with every finding", "[report][shapes]") {
    const AbcFile file("X:1\nT:Rain\nL:1/8\nK:Ador\n{g}A2-A/ [CE]>]B|\n\nK:none\nC\n");
    std::string rows;
    for (const tune::Setting& setting : file.settings())
        rows += (rows.empty() ? "" : ",") + report::melody_row_json({setting, {}, file.source()});
    const json answer = json::parse(report::reading_json_opening() + rows +
                                    report::reading_json_closing({{&file.source(), &file.diagnostics()}}));
    CHECK(answer["version"] == 1);
    REQUIRE(answer["tunes"].size() == 2);
    for (const json& tune : answer["tunes"])
        check_keys(tune, {"number", "title", "line", "key_stated", "pitches", "durations"});
    const json& first = answer["tunes"][0];
    CHECK(first["number"] == "1");
    CHECK(first["title"] == "Rain");
    CHECK(first["key_stated"] == "A dorian");
    CHECK(first["pitches"] == json({"g79", "69", "(69)", "60+64", "71"}));
    CHECK(first["durations"] == json({"1/4", "1/16", "3/16", "1/16"}));
    CHECK(answer["tunes"][1]["number"].is_null());
    CHECK(answer["tunes"][1]["title"].is_null());
    CHECK(answer["tunes"][1]["line"] == 7);
    CHECK(answer["tunes"][1]["key_stated"] == "none");
    REQUIRE(answer["diagnostics"].size() >= 1);
    for (const json& diagnostic : answer["diagnostics"])
        check_keys(diagnostic, {"file", "line", "column", "severity", "code", "message"});
    const json& bracket = answer["diagnostics"][0];
    CHECK(bracket["code"] == "abc-stray-bracket");
    CHECK(bracket["severity"] == "warning");
    CHECK(bracket["file"] == "test.abc");
    CHECK(bracket["line"] == 5);
    CHECK(bracket["column"] == 15);
}

TEST_CASE("shapes: facts of files that are in no library have no ids", "[report][shapes]") {
    const AbcFile file(kTune);
    const tune::TuneFacts facts = analysis::analyse(file.only());
    const json answer =
        json::parse(report::reading_json_opening() + report::facts_row_json({file.only(), facts, file.source()}) +
                    report::reading_json_closing({{&file.source(), &file.diagnostics()}}));
    REQUIRE(answer["tunes"].size() == 1);
    check_row(answer["tunes"][0]);
    CHECK(answer["tunes"][0]["id"].is_null());
    REQUIRE(answer["tunes"][0]["uses"].size() == 5);
    check_keys(answer["tunes"][0]["uses"][0], {"note", "pitch", "count", "strong", "bars"});
    CHECK(answer["tunes"][0]["uses"][0]["note"] == "A4");
}

TEST_CASE("shapes: text that is no UTF-8 does not break an answer", "[report][shapes]") {
    answers::TunesAnswer listing;
    listing.rows = {record_of(kTune)};
    listing.rows[0].file = "caf\xE9.abc";
    CHECK(json::parse(report::as_json(listing))["tunes"][0]["file"] == "caf\uFFFD.abc");
}

TEST_CASE("shapes: one tune in full", "[report][shapes]") {
    const AbcFile file(kTune);
    answers::TuneAnswer page;
    page.record = record_of(kTune);
    page.facts = analysis::analyse(file.only());
    page.settings = {page.record};
    page.abc = kTune;
    const json answer = json::parse(report::as_json(page));
    CHECK(answer["version"] == 1);
    check_row(answer["tune"]);
    check_keys(answer["tune"], {"gone", "key_evidence", "uses", "settings", "abc"});
    CHECK(answer["tune"]["abc"] == kTune);
    CHECK(answer["tune"]["settings"].size() == 1);
    CHECK_FALSE(report::describe(page).blocks.empty());
}

TEST_CASE("shapes: what a person says of tunes", "[report][shapes]") {
    std::vector<tune::TuneRecord> records = {record_of(kTune), record_of("T:\nK:C\nz4|\n")};
    records[0].tags = {"thursday", "Wedding"};
    records[0].count = 0;
    const json answer = json::parse(report::as_json(report::MarksPage{records, {{{12}, "fs"}, {{13}, "other"}}}));
    CHECK(answer["version"] == 1);
    CHECK(
        answer["tunes"] ==
        json::parse(
            R"([{"id":12,"title":"Rain on the Slipway","tags":["thursday","Wedding"],"count":0,"rhythm_said":null,"key_said":null,"aliases":["fs"]},
                                             {"id":12,"title":null,"tags":[],"count":null,"rhythm_said":null,"key_said":null,"aliases":["fs"]}])"));
    answers::TunesAnswer listing;
    listing.rows = records;
    const json rows = json::parse(report::as_json(listing))["tunes"];
    CHECK(rows[0]["tags"] == json({"thursday", "Wedding"}));
    CHECK(rows[0]["count"] == 0);
    CHECK(rows[1]["count"].is_null());
    CHECK(report::describe(report::MarksPage{records}).blocks.size() == 2);
}

TEST_CASE("shapes: what an import did", "[report][shapes]") {
    report::ImportSummary summary;
    summary.files_seen = 5, summary.files_read = 4, summary.files_unchanged = 3, summary.files_failed = 2,
    summary.files_gone = 1;
    summary.settings_new = 6, summary.settings_changed = 7, summary.settings_same = 8, summary.settings_gone = 9;
    summary.odd = {10, 11, 12};
    summary.in_library = {20, 21, 22};
    summary.kinds = {{"abc-strange", base::Severity::error, 10, 2, "a.abc", 7, "odd; left out"}};
    const json answer = json::parse(report::as_json(summary));
    CHECK(answer["version"] == 1);
    CHECK(answer["files"] == json({{"seen", 5}, {"read", 4}, {"unchanged", 3}, {"failed", 2}, {"gone", 1}}));
    CHECK(answer["settings"] == json({{"new", 6}, {"changed", 7}, {"same", 8}, {"gone", 9}}));
    CHECK(answer["diagnostics"] == json({{"errors", 10}, {"warnings", 11}, {"remarks", 12}}));
    CHECK(answer["in_library"] == json({{"errors", 20}, {"warnings", 21}, {"remarks", 22}}));
    CHECK(answer["kinds"][0] == json({{"code", "abc-strange"},
                                      {"severity", "error"},
                                      {"times", 10},
                                      {"files", 2},
                                      {"file", "a.abc"},
                                      {"line", 7},
                                      {"message", "odd; left out"}}));
}

TEST_CASE("shapes: a path with its proof", "[report][shapes]") {
    answers::PathAnswer page;
    page.have = music::read_notes("A3");
    page.plan.tunes = 9;
    page.plan.open_now = 2;
    page.plan.cost = 12.0;
    page.plan.lower_bound = 11.0;
    page.plan.greedy_cost = 13.0;
    page.plan.proof = planner::Proof::gap;
    page.plan.never_open = 1;
    planner::Step step;
    step.add = music::read_notes("C5");
    step.opens = 3;
    step.open = 5;
    step.ids = {{4}, {6}, {8}};
    step.runners_up = {{music::read_notes("C#5"), 2, {}}};
    page.plan.steps = {step};
    page.opens = {{{"Rain on the Slipway"}, {}, {}, {}}};
    const json answer = json::parse(report::as_json(page));
    CHECK(answer["version"] == 1);
    check_keys(answer, {"have", "tunes", "open_now", "steps", "never_open", "cost", "lower_bound", "proof",
                        "greedy_cost", "limits"});
    CHECK(answer["have"] == json({"A3"}));
    CHECK(answer["proof"] == "gap");
    CHECK(answer["cost"] == 12.0);
    CHECK(answer["lower_bound"] == 11.0);
    check_keys(answer["limits"], {"states", "seconds"});
    REQUIRE(answer["steps"].size() == 1);
    CHECK(answer["steps"][0]["step"] == 1);
    CHECK(answer["steps"][0]["add"] == json({"C5"}));
    CHECK(answer["steps"][0]["opens"] == 3);
    CHECK(answer["steps"][0]["open"] == 5);
    CHECK(answer["steps"][0]["ids"] == json({4, 6, 8}));
    CHECK(answer["steps"][0]["runners_up"][0]["add"] == json({"C#5"}));
    CHECK(answer["steps"][0]["runners_up"][0]["opens"] == 2);
}
