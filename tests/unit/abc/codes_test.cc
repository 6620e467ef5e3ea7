// Every code of abc/codes.h: provoked at its place, and explained in schema/diagnostics.md with an example that raises
// it.
#include "abc/codes.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <fstream>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "abc/mail_residue.h"
#include "abc/moved.h"
#include "written.h"

using base::Severity;

namespace {

// One finding of the code stands at this line and column. `\xE9` makes a file that is no UTF-8.
struct Provocation {
    const char* code;
    Severity severity;
    std::uint32_t line;
    std::uint32_t column;
    std::string abc;
};

const std::string kHead = "X:1\nT:Test\nM:4/4\nL:1/8\nK:C\n";

// More than four mebibytes of music in lines of ordinary length.
std::string long_body() {
    std::string body;
    while (body.size() <= (4U << 20)) body += "CDEF GABc CDEF GABc|\n";
    return body;
}

std::vector<Provocation> provocations() {
    using enum Severity;
    const auto music = [](const std::string& line) { return kHead + line + "\n"; };
    const auto header = [](const std::string& line) { return "X:1\nT:Test\n" + line + "\nK:C\nCDE\n"; };
    return {{"abc-no-number", warning, 1, 1, "T:Test\nK:C\nCDE\n"},
            {"abc-no-number", warning, 2, 1, "%abc\nX:\nT:Test\nK:C\nCDE\n"},
            {"abc-bad-number", warning, 1, 1, "X:7b\nT:Test\nK:C\nCDE\n"},
            {"abc-number-again", remark, 6, 1, "X:1\nT:a\nK:C\nC\n\nX:1\nT:b\nK:C\nC\n"},
            {"abc-no-blank-line", warning, 5, 1, "X:1\nT:a\nK:C\nC\nX:2\nT:b\nK:C\nC\n"},
            {"abc-fields-outside", warning, 6, 1, "X:1\nT:a\nK:C\nC\n\nR:reel\n\nX:2\nT:b\nK:C\nC\n"},
            {"abc-no-title", remark, 1, 1, "X:1\nK:C\nC\n"},
            {"abc-no-key", warning, 4, 1, "X:1\nT:a\nL:1/8\nCDE\n"},
            {"abc-no-key", warning, 1, 1, "X:1\nT:a\n"},
            {"abc-no-music", remark, 1, 1, "X:1\nT:a\nK:C\nz4|\n"},
            {"abc-text-in-header", error, 3, 1, header("learnt late")},
            {"abc-indented-field", warning, 3, 3, header("  R:reel")},
            {"abc-indented-field", warning, 6, 2, music(" w: la")},
            {"abc-unknown-field", remark, 3, 1, header("E:9")},
            {"abc-unknown-field", remark, 6, 1, music("J:jolly")},
            {"abc-stray-field", warning, 6, 1, music("Z:by hand")},
            {"abc-stray-field", warning, 2, 1, "M:4/4\nP:AB\n\nX:1\nT:a\nK:C\nC\n"},
            {"abc-unclosed-field", warning, 6, 3, music("CD[M:3/4 EF")},
            {"abc-unknown-key", error, 3, 1, "X:1\nT:a\nK:?\nC\n"},
            {"abc-unknown-key", error, 6, 2, music("C[K:?]D")},
            {"abc-odd-key", warning, 3, 1, "X:1\nT:a\nK:g\nC\n"},
            {"abc-words-after-key", warning, 3, 1, "X:1\nT:a\nK:G first\nC\n"},
            {"abc-odd-key", warning, 3, 1, "X:1\nT:a\nK:Bn\nC\n"},
            {"abc-unknown-specifier", remark, 3, 1, "X:1\nT:a\nK:G style=rhythm\nC\n"},
            {"abc-bad-meter", warning, 3, 1, header("M:waltz")},
            {"abc-bad-meter", warning, 3, 1, header("M:")},
            {"abc-bad-meter", warning, 6, 2, music("C[M:3]D")},
            {"abc-bad-unit", warning, 3, 1, header("L:quaver")},
            {"abc-bad-macro", warning, 3, 1, header("m:~G3")},
            {"abc-bad-symbol", warning, 3, 1, header("U:C=!trill!")},
            {"abc-bad-voice", warning, 3, 1, header("V:")},
            {"abc-bad-voice", warning, 6, 1, music("V: ")},
            {"abc-bad-instruction", warning, 3, 1, header("I:propagate-accidentals sometimes")},
            {"abc-include-not-read", warning, 3, 1, header("I:abc-include more.abh")},
            {"abc-guessed-charset", remark, 2, 6, "X:1\nT:Caf\xE9\nK:C\nC\n"},
            {"abc-long-line", error, 6, 1, music(std::string((1U << 20) + 1, 'C'))},
            {"abc-long-tune", error, 6, 1, "X:1\nT:a\nK:C\nC\n\nX:2\nT:b\nK:C\n" + long_body()},
            {"abc-old-continuation", warning, 8, 1, music("CDE\nw:la \\\nla la\nFGA")},
            {"abc-bad-length", warning, 6, 2, music("C0")},
            {"abc-bad-length", warning, 6, 4, music("CD 3")},
            {"abc-lone-accidental", error, 6, 3, music("CD^|E")},
            {"abc-microtone", warning, 6, 2, music("C^/D")},
            {"abc-out-of-range", error, 6, 2, music("CD,,,,,,E")},
            {"abc-unknown-letter", remark, 6, 2, music("CqD")},
            {"abc-unknown-sign", warning, 6, 3, music("C 'D")},
            {"abc-reserved-sign", remark, 6, 2, music("C#D")},
            {"abc-unclosed-quote", warning, 6, 2, music("C\"Am D")},
            {"abc-unclosed-chord", warning, 6, 2, music("C[EG|C")},
            {"abc-unclosed-grace", warning, 6, 2, music("C{ga")},
            {"abc-stray-bracket", warning, 6, 2, music("C]D")},
            {"abc-stray-bracket", warning, 6, 2, music("C}D")},
            {"abc-bad-tuplet", warning, 6, 2, music("C(1DE")},
            {"abc-short-tuplet", warning, 6, 2, music("C(3DE")},
            {"abc-lone-broken", warning, 6, 1, music("<CD")},
            {"abc-lone-tie", remark, 6, 2, music("C-z2D")},
            {"abc-music-outside", warning, 7, 1, "X:1\nT:a\nM:4/4\nL:1/8\nK:C\n\nGABc|d4|\n"},
            {"abc-old-break", remark, 6, 2, music("C!D E")},
            {"abc-old-decoration", remark, 6, 2, music("C+trill+D")},
            {"abc-old-chord", remark, 6, 2, music("C+EG+D")},
            {"abc-rest-without-meter", warning, 5, 2, "X:1\nT:a\nL:1/8\nK:C\nCZD\n"},
            {"abc-lengths-too-fine", warning, 6, 18, music("[L:1/512](63:62:1C/4096>>>>>>D")},
            {"abc-lengths-too-fine", warning, 6, 7,
             music("C8    |(7:4:1G (11:4:1A (13:4:1B (17:4:1c (19:4:1d (23:4:1e (29:4:1f (31:4:1g|")},
            {"abc-mail-residue", warning, 2, 4, "X:1\nT:a=20\nK:C\n=3DB\n"},
            {"abc-page-residue", warning, 6, 2, music("C&gt;D")},
            {"abc-chord-left-out", error, 6, 2, music("C\"Cfoo7\"D")},
            {"abc-not-moved", error, 6, 2, music("C^/D")},
            {"abc-macro-written-out", remark, 4, 1, "X:1\nm:~E2=E{F}E\nK:none\n~E2 E2\n"},
            {"abc-pipes-moved", remark, 3, 1, "X:1\nT:a\nK:Hp\nABc\n"}};
}

// Those of reading, then those of moving.
std::vector<abc::Code> every_code() {
    std::vector<abc::Code> codes(abc::all_codes().begin(), abc::all_codes().end());
    codes.insert(codes.end(), abc::codes_of_moving().begin(), abc::codes_of_moving().end());
    return codes;
}

// What reading a text finds, and what moving it a whole tone finds beside it.
void find_all(const base::SourceFile& source, base::Diagnostics& diagnostics) {
    abc::read_settings(source, diagnostics);
    abc::moved(source, 2, diagnostics);
}

// --- schema/diagnostics.md

struct Section {
    std::string severity;
    std::string example;  // a whole file; empty where the page shows none that can be read
};

// Sections in the order of the page, each with its first fenced example made into a file.
std::vector<std::pair<std::string, Section>> read_page() {
    std::ifstream page(GAMUT_SOURCE_DIR "/schema/diagnostics.md");
    REQUIRE(page.good());
    std::vector<std::pair<std::string, Section>> sections;
    bool in_example = false;
    for (std::string line; std::getline(page, line);) {
        if (in_example) {
            if (line == "```")
                in_example = false;
            else
                sections.back().second.example += line + "\n";
        } else if (line.starts_with("## ")) {
            sections.push_back({line.substr(3), {}});
        } else if (sections.empty()) {
            continue;
        } else if (line.starts_with("*") && sections.back().second.severity.empty()) {
            sections.back().second.severity = line.substr(1, line.find('*', 1) - 2);
        } else if (line == "```abc file") {
            in_example = true;
        } else if (line == "```abc") {
            in_example = true;
            sections.back().second.example = "X:1\nT:Example\nM:4/4\nL:1/8\nK:C\n";
        }
    }
    return sections;
}

}  // namespace

TEST_CASE("codes: every code is provoked at its place with its grade", "[abc][codes]") {
    for (const Provocation& provocation : provocations()) {
        CAPTURE(provocation.code, provocation.abc.substr(0, 300));
        const base::SourceFile decoded = abc::without_residue(base::decode_source("test.abc", provocation.abc));
        base::Diagnostics diagnostics;
        find_all(decoded, diagnostics);
        int found = 0;
        std::string others;
        for (const base::Diagnostic& diagnostic : diagnostics.kept()) {
            const base::Place place = decoded.place_of(diagnostic.where.begin);
            if (diagnostic.code == provocation.code && place.line == provocation.line &&
                place.column == provocation.column) {
                ++found;
                CHECK(diagnostic.severity == provocation.severity);
                CHECK_FALSE(diagnostic.message.empty());
            }
            others += std::string(diagnostic.code) + "@" + std::to_string(place.line) + ":" +
                      std::to_string(place.column) + " ";
        }
        CAPTURE(others);
        CHECK(found == 1);
    }
}

TEST_CASE("codes: no code of the list goes without a provocation", "[abc][codes]") {
    std::set<std::string> provoked;
    for (const Provocation& provocation : provocations()) provoked.insert(provocation.code);
    for (const abc::Code& code : every_code()) {
        CAPTURE(code.token);
        CHECK(provoked.count(std::string(code.token)) == 1);
    }
    CHECK(provoked.size() == every_code().size());
}

TEST_CASE("codes: tokens are unlike each other and say abc first", "[abc][codes]") {
    std::set<std::string_view> tokens;
    for (const abc::Code& code : every_code()) {
        CHECK(code.token.starts_with("abc-"));
        CHECK(code.token.find_first_not_of("abcdefghijklmnopqrstuvwxyz-") == std::string_view::npos);
        CHECK(tokens.insert(code.token).second);
    }
}

TEST_CASE("codes: the page of findings explains each code in order, with its grade", "[abc][codes]") {
    const auto sections = read_page();
    REQUIRE(sections.size() == every_code().size());
    for (std::size_t at = 0; at < sections.size(); ++at) {
        const abc::Code code = every_code()[at];
        CHECK(sections[at].first == code.token);
        CHECK(sections[at].second.severity == base::severity_token(code.severity));
    }
}

TEST_CASE("codes: every example of the page raises the code it stands under", "[abc][codes]") {
    std::set<std::string> without_example;
    for (const auto& [title, section] : read_page()) {
        const std::string& token = title;  // a binding cannot be captured below
        CAPTURE(token, section.example);
        if (section.example.empty()) {
            without_example.insert(token);
            continue;
        }
        const base::SourceFile decoded = abc::without_residue(base::decode_source("test.abc", section.example));
        base::Diagnostics diagnostics;
        find_all(decoded, diagnostics);
        CHECK(std::any_of(diagnostics.kept().begin(), diagnostics.kept().end(),
                          [&code = token](const base::Diagnostic& diagnostic) { return diagnostic.code == code; }));
    }
    // One needs a byte that is no UTF-8, the others megabytes: none of them can stand on a page.
    CHECK(without_example == std::set<std::string>{"abc-guessed-charset", "abc-long-line", "abc-long-tune"});
}
