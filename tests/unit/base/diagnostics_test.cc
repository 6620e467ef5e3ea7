#include "base/diagnostics.h"

#include <catch2/catch.hpp>
#include <string>

#include "base/source_file.h"

using base::Severity;

namespace {

std::string printed(const std::string& text, std::uint32_t at, Severity severity = Severity::warning) {
    const base::SourceFile source("tunes.abc", text);
    return base::print_diagnostic(source, {severity, "abc-example", {at, at + 1}, "something odd; left out"});
}

}  // namespace

TEST_CASE("diagnostics: a finding prints its place, its grade, its code, the line and a caret", "[base][diagnostics]") {
    CHECK(printed("X:1\nGAB]c\nd\n", 7) ==
          "tunes.abc:2:4: warning: something odd; left out [abc-example]\n"
          "    GAB]c\n"
          "       ^\n");
    CHECK(printed("X:1\n", 0, Severity::error) ==
          "tunes.abc:1:1: error: something odd; left out [abc-example]\n"
          "    X:1\n"
          "    ^\n");
    CHECK(printed("X:1\n", 1, Severity::remark).substr(0, 22) == "tunes.abc:1:2: remark:");
}

TEST_CASE("diagnostics: a tab is one blank, so the caret stays in line", "[base][diagnostics]") {
    CHECK(printed("\tGA\tB]", 5) ==
          "tunes.abc:1:6: warning: something odd; left out [abc-example]\n"
          "     GA B]\n"
          "         ^\n");
}

TEST_CASE("diagnostics: column and caret count letters, and wide letters twice", "[base][diagnostics]") {
    CHECK(printed("\"é\"]", 4) ==
          "tunes.abc:1:4: warning: something odd; left out [abc-example]\n"
          "    \"é\"]\n"
          "       ^\n");
    CHECK(printed("\"漢\"]", 5) ==
          "tunes.abc:1:4: warning: something odd; left out [abc-example]\n"
          "    \"漢\"]\n"
          "        ^\n");
}

TEST_CASE("diagnostics: of a long line the part around the place is shown", "[base][diagnostics]") {
    const std::string line(300, 'a');
    CHECK(printed(line, 200) ==
          "tunes.abc:1:201: warning: something odd; left out [abc-example]\n"
          "    ..." +
              std::string(100, 'a') +
              "...\n"
              "       " +
              std::string(80, ' ') + "^\n");
    CHECK(printed(line, 10) ==
          "tunes.abc:1:11: warning: something odd; left out [abc-example]\n"
          "    " +
              std::string(100, 'a') +
              "...\n"
              "    " +
              std::string(10, ' ') + "^\n");
    CHECK(printed(line, 299) ==
          "tunes.abc:1:300: warning: something odd; left out [abc-example]\n"
          "    ..." +
              std::string(81, 'a') +
              "\n"
              "       " +
              std::string(80, ' ') + "^\n");
}

TEST_CASE("diagnostics: a long line is never cut inside a letter", "[base][diagnostics]") {
    std::string line;
    for (int i = 0; i < 200; ++i) line += "é";
    for (std::uint32_t at = 0; at < line.size(); at += 2) {
        const std::string text = printed(line, at);
        CHECK(text.find("\uFFFD") == std::string::npos);
    }
}

TEST_CASE("diagnostics: control characters of a hostile file are shown as blanks", "[base][diagnostics]") {
    const base::SourceFile source("evil\x1b[2J.abc", "G\x1b[31mA]\n");
    const std::string text =
        base::print_diagnostic(source, {Severity::warning, "abc-example", {0, 1}, "read \x07 here"});
    CHECK(text.find('\x1b') == std::string::npos);
    CHECK(text.find('\x07') == std::string::npos);
    CHECK(text == "evil [2J.abc:1:1: warning: read   here [abc-example]\n    G [31mA]\n    ^\n");
}

TEST_CASE("diagnostics: a place at the end of a line or of the file has its caret behind the last letter",
          "[base][diagnostics]") {
    CHECK(printed("GAB\nc", 3) == "tunes.abc:1:4: warning: something odd; left out [abc-example]\n    GAB\n       ^\n");
    CHECK(printed("GAB", 99) == "tunes.abc:1:4: warning: something odd; left out [abc-example]\n    GAB\n       ^\n");
}

TEST_CASE("diagnostics: all are counted, the first two thousand are kept", "[base][diagnostics]") {
    base::Diagnostics diagnostics;
    for (int i = 0; i < 3000; ++i)
        diagnostics.add(i % 3 == 0 ? Severity::error : Severity::remark, "abc-example", {}, std::to_string(i));
    CHECK(diagnostics.count(Severity::error) == 1000);
    CHECK(diagnostics.count(Severity::warning) == 0);
    CHECK(diagnostics.count(Severity::remark) == 2000);
    CHECK(diagnostics.total() == 3000);
    REQUIRE(diagnostics.kept().size() == base::Diagnostics::kMaxKept);
    CHECK(diagnostics.not_kept() == 1000);
    CHECK(diagnostics.kept().back().message == "1999");
}

TEST_CASE("diagnostics: what is told once stands at its first place, with how often it was met",
          "[base][diagnostics]") {
    base::Diagnostics diagnostics;
    diagnostics.add_once(Severity::remark, "abc-example", "k", {4, 5}, "k left out");
    diagnostics.add_once(Severity::remark, "abc-example", "q", {6, 7}, "q left out");
    diagnostics.add(Severity::warning, "abc-other", {1, 2}, "something odd");
    diagnostics.add_once(Severity::remark, "abc-example", "k", {8, 9}, "k left out");
    diagnostics.add_once(Severity::remark, "abc-other", "k", {9, 9}, "another code");
    diagnostics.order_by_place();
    REQUIRE(diagnostics.kept().size() == 4);
    CHECK(diagnostics.total() == 4);
    CHECK(diagnostics.kept()[0].message == "something odd");
    CHECK(diagnostics.kept()[1].message == "k left out, 2 times in this file");
    CHECK(diagnostics.kept()[1].where.begin == 4);
    CHECK(diagnostics.kept()[2].message == "q left out");
    diagnostics.order_by_place();
    CHECK(diagnostics.kept()[1].message == "k left out, 2 times in this file");
}

TEST_CASE("diagnostics: grades have one word each", "[base][diagnostics]") {
    CHECK(base::severity_token(Severity::error) == "error");
    CHECK(base::severity_token(Severity::warning) == "warning");
    CHECK(base::severity_token(Severity::remark) == "remark");
}

TEST_CASE("diagnostics: a severity is read back from its token", "[base][diagnostics]") {
    for (const base::Severity severity : {base::Severity::error, base::Severity::warning, base::Severity::remark})
        CHECK(base::parse_severity(base::severity_token(severity)) == severity);
    CHECK_FALSE(base::parse_severity("Error"));
    CHECK_FALSE(base::parse_severity(""));
}
