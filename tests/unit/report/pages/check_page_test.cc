// What `gamut check` shows: grouped for people, one row each for machines.
#include "report/pages/check_page.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "base/utf8.h"
#include "report/writers/csv.h"
#include "report/writers/text.h"

using answers::CheckedOddity;
using nlohmann::json;
using report::CheckPage;
using tune::OddityKind;

namespace {

CheckedOddity bar_row(tune::TuneId tune, const char* title, std::uint32_t line, const char* message,
                      const char* advice) {
    return {tune,    title, "boathouse/jigs.abc", line, 9, OddityKind::bar_length, base::Severity::warning,
            message, advice};
}

CheckPage two_kinds() {
    CheckPage page;
    page.answer.rows = {
        {tune::TuneId{7}, "The Tin Gate", "boathouse/reels.abc", 40, 1, OddityKind::key_label, base::Severity::remark,
         "Labelled G major, but the notes speak for A dorian.",
         "K:Ador keeps the same signature, so that no note changes."},
        bar_row({3}, "Rain on the Slipway", 14, "Bar 5 has 5/8 where 6/8 are due.", "Count it."),
        bar_row({4}, "", 30, "Bar 2 has 12/8, which is two bars of 6/8.", "Count it."),
    };
    page.answer.counts = {{OddityKind::key_label, 1}, {OddityKind::bar_length, 2}};
    page.answer.tunes_checked = 12;
    page.answer.files_checked = 2;
    return page;
}

std::string text_of(const CheckPage& page, std::size_t width = 80) {
    return report::render_text(report::describe(page), {.width_chars = width, .color = false});
}

std::size_t times(const std::string& text, const std::string& words) {
    std::size_t count = 0;
    for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) ++count;
    return count;
}

}  // namespace

TEST_CASE("check page: grouped by kind, each place with file, line and column, the advice of a group once",
          "[report][check]") {
    CHECK(text_of(two_kinds()) ==
          "Keys that disagree with the notes (1)\n"
          "boathouse/reels.abc:40:1  The Tin Gate\n"
          "    Labelled G major, but the notes speak for A dorian.\n"
          "    K:Ador keeps the same signature, so that no note changes.\n"
          "\n"
          "Bars that do not add up (2)\n"
          "Count it.\n"
          "boathouse/jigs.abc:14:9  Rain on the Slipway\n"
          "    Bar 5 has 5/8 where 6/8 are due.\n"
          "boathouse/jigs.abc:30:9  (no title)\n"
          "    Bar 2 has 12/8, which is two bars of 6/8.\n"
          "\n"
          "Looked at 12 tunes in 2 files: 3 things look odd. Your files are never changed.\n"
          "--kind shows one kind alone (--kind bar-length), --csv puts every place into a\n"
          "table.\n");
}

TEST_CASE("check page: what is said of a tune again and again is told once, with how often", "[report][check]") {
    CheckPage page = two_kinds();
    page.answer.rows.push_back(
        bar_row({3}, "Rain on the Slipway", 16, "Bar 5 has 5/8 where 6/8 are due.", "Count it."));
    page.answer.counts[OddityKind::bar_length] = 3;
    const std::string text = text_of(page);
    CAPTURE(text);
    CHECK(text.find("do not add up (3)\n") != std::string::npos);
    CHECK(text.find(
              "jigs.abc:14:9  Rain on the Slipway\n    Bar 5 has 5/8 where 6/8 are due. (2 times in this tune)\n") !=
          std::string::npos);
    CHECK(times(text, "jigs.abc:16:9") == 0);
    CHECK(json::parse(report::as_json(page))["oddities"].size() == 4);
}

TEST_CASE("check page: the commonest advice stands above, any other under its place", "[report][check]") {
    CheckPage page = two_kinds();
    page.answer.rows[1].advice = "A bar line is probably missing.";
    page.answer.rows.push_back(bar_row({5}, "The Ferry at Noon", 50, "Bar 7 has 7/8 where 6/8 are due.", "Count it."));
    const std::string text = text_of(page);
    CAPTURE(text);
    CHECK(text.find("Mostly: Count it.\nboathouse/jigs.abc:14:9  Rain on the Slipway\n") != std::string::npos);
    CHECK(text.find("5/8 where 6/8 are due.\n    A bar line is probably missing.\n") != std::string::npos);
    CHECK(times(text, "Count it.") == 1);
}

TEST_CASE("check page: where each has its own advice none stands above", "[report][check]") {
    CheckPage page = two_kinds();
    page.answer.rows[2].advice = "A bar line is probably missing.";
    const std::string text = text_of(page);
    CAPTURE(text);
    CHECK(text.find("do not add up (2)\nboathouse/jigs.abc:14:9") != std::string::npos);
    CHECK(text.find("are due.\n    Count it.\n") != std::string::npos);
    CHECK(text.find("two bars of 6/8.\n    A bar line is probably missing.\n") != std::string::npos);
    CHECK(text.find("Mostly") == std::string::npos);
}

TEST_CASE("check page: what is not shown is counted, and the way to it named", "[report][check]") {
    CheckPage page = two_kinds();
    page.answer.counts[OddityKind::bar_length] = 30;
    page.answer.counts[OddityKind::part_length] = 4;
    const std::string text = text_of(page);
    CHECK(text.find("Bars that do not add up (2 of 30 shown)\n") != std::string::npos);
    CHECK(text.find("Parts of an unusual length (0 of 4 shown)\n") != std::string::npos);
    CHECK(text.find("35 things look odd, 3 shown (--limit).") != std::string::npos);
}

TEST_CASE("check page: in brief what would be more than a screenful is told in part", "[report][check]") {
    CheckPage page = two_kinds();
    page.is_brief = true;
    CheckPage in_full = page;
    in_full.is_brief = false;
    CHECK(text_of(page) == text_of(in_full));  // all of it is a screenful

    for (std::uint32_t tune = 10; tune < 60; ++tune)
        page.answer.rows.push_back(
            bar_row({tune}, "Geese over the Bridge", tune * 10, "Bar 2 has 7/8 where 6/8 are due.", "Count it."));
    CheckedOddity harmless = bar_row({61}, "The Wet Newspaper", 900, "Bar 8 has 5/8, and no pick-up makes it up.", "");
    harmless.severity = base::Severity::remark;
    page.answer.rows.push_back(harmless);
    for (const char* file : {"a.abc", "b.abc", "b.abc"})
        page.answer.rows.push_back({tune::TuneId{62}, "Tea and Toast", file, 1, 1, OddityKind::part_length,
                                    base::Severity::remark, "The part that begins here has 7 bars.", ""});
    page.answer.counts[OddityKind::bar_length] = 53;
    page.answer.counts[OddityKind::part_length] = 3;
    const std::string text = text_of(page);
    CAPTURE(text);
    std::size_t lines = 0;
    for (const char c : text) lines += c == '\n' ? 1 : 0;
    CHECK(lines <= report::kScreenLines + 4);  // the summary stands below
    CHECK(text.starts_with("Keys that disagree with the notes (1)\n"));
    CHECK(text.find("Bars that do not add up (53)\nboathouse/jigs.abc:14:9") != std::string::npos);
    CHECK(text.find("boathouse/jigs.abc: also 1\n") != std::string::npos);
    CHECK(text.find("The Wet Newspaper") == std::string::npos);
    CHECK(text.find(" more: gamut check --kind bar-length\n") != std::string::npos);
    CHECK(text.find("Parts of an unusual length (3)\nb.abc: 2\na.abc: 1\n") != std::string::npos);
    CHECK(text.find("--all shows every place") != std::string::npos);
}

TEST_CASE("check page: a clean collection is told so", "[report][check]") {
    CheckPage page;
    page.answer.tunes_checked = 1;
    page.answer.files_checked = 1;
    CHECK(text_of(page) == "Looked at 1 tune in 1 file: nothing looks wrong.\n");
}

TEST_CASE("check page: nothing runs over the edge of the terminal", "[report][check]") {
    CheckPage page = two_kinds();
    for (CheckedOddity& row : page.answer.rows)
        row.message +=
            " And more is said of it here, so much more that no line of any terminal could ever hold it in one piece.";
    for (const std::size_t width : {80U, 120U}) {
        std::istringstream lines(text_of(page, width));
        for (std::string line; std::getline(lines, line);) CHECK(base::display_width(line) <= width);
    }
}

TEST_CASE("check page: a title cannot drive the terminal", "[report][check]") {
    CheckPage page = two_kinds();
    page.answer.rows[1].title = "Rain\x1b[31m";
    CHECK(text_of(page).find('\x1b') == std::string::npos);
}

TEST_CASE("check page: CSV has one row each in the order given", "[report][check]") {
    CheckPage page = two_kinds();
    page.answer.rows.resize(2);
    page.answer.rows.push_back({std::nullopt, "", "letter.abc", 2, 3, OddityKind::encoding, base::Severity::remark,
                                "Read as Windows-1252.", ""});
    CHECK(report::render_csv(report::tabulate(page)) ==
          "kind,severity,file,line,column,tune,title,message,advice\r\n"
          "key-label,remark,boathouse/reels.abc,40,1,7,The Tin Gate,\"Labelled G major, but the notes speak for A "
          "dorian.\",\"K:Ador keeps the same signature, so "
          "that no note changes.\"\r\n"
          "bar-length,warning,boathouse/jigs.abc,14,9,3,Rain on the Slipway,Bar 5 has 5/8 where 6/8 are due.,Count "
          "it.\r\n"
          "encoding,remark,letter.abc,2,3,,,Read as Windows-1252.,\r\n");
}

TEST_CASE("check page: JSON counts every kind and leaves out what is not known", "[report][check]") {
    CheckPage page = two_kinds();
    page.answer.counts[OddityKind::twin] = 6;
    page.answer.rows[2].advice = "";
    const json answer = json::parse(report::as_json(page));
    CHECK(answer["version"] == 1);
    CHECK(answer["oddities"].size() == 3);
    CHECK(answer["oddities"][1] == json{{"kind", "bar-length"},
                                        {"severity", "warning"},
                                        {"file", "boathouse/jigs.abc"},
                                        {"line", 14},
                                        {"column", 9},
                                        {"tune", 3},
                                        {"title", "Rain on the Slipway"},
                                        {"message", "Bar 5 has 5/8 where 6/8 are due."},
                                        {"advice", "Count it."}});
    CHECK(answer["oddities"][2]["title"].is_null());
    CHECK(answer["oddities"][2]["advice"].is_null());
    CHECK(answer["counts"].size() == tune::kOddityKinds.size());
    CHECK(answer["counts"]["twin"] == 6);
    CHECK(answer["counts"]["encoding"] == 0);
    CHECK(answer["matched"] == 9);
    CHECK(answer["shown"] == 3);
    CHECK(answer["tunes_checked"] == 12);
    CHECK(answer["files_checked"] == 2);
}
