#include "abc/tune_tokens.h"

#include <catch2/catch.hpp>
#include <string>

#include "written.h"

namespace {

struct Lines {
    std::string words;
    std::string codes;
};

// Every token that is a line of its own as `kind(text)`; runs of music as `music`.
Lines lines_of(const std::string& text, abc::Dialect dialect = {}) {
    const base::SourceFile source("test.abc", text);
    base::Diagnostics diagnostics;
    Lines result;
    abc::Tokens tokens;
    for (const abc::Block& block : abc::split_tunebook(source, diagnostics).blocks) {
        abc::read_tokens(source, block, dialect, tokens, diagnostics);
        bool in_music = false;
        for (const abc::Token& token : tokens.all) {
            using Kind = abc::TokenKind;
            std::string word;
            switch (token.kind) {
                case Kind::field:
                    word = std::string(1, token.letter) + "(" + std::string(token.text) + ")";
                    break;
                case Kind::continued:
                    word = "more(" + std::string(token.text) + ")";
                    break;
                case Kind::directive:
                    word = "%%(" + std::string(token.text) + ")";
                    break;
                case Kind::comment:
                    word = "comment";
                    break;
                case Kind::skipped:
                    word = "skip";
                    break;
                default:
                    word = "music";
                    break;
            }
            const bool is_music = word == "music";
            if (is_music && in_music) continue;
            in_music = is_music;
            result.words += (result.words.empty() ? "" : " ") + word;
        }
    }
    for (const base::Diagnostic& diagnostic : diagnostics.kept()) {
        const base::Place place = source.place_of(diagnostic.where.begin);
        result.codes += (result.codes.empty() ? "" : " ") + std::string(diagnostic.code) + "@" +
                        std::to_string(place.line) + ":" + std::to_string(place.column);
    }
    return result;
}

struct TuneCase {
    const char* body;
    const char* words;
    const char* codes = "";
};

// Cases of one or more body lines; the header takes two lines and two words.
void check_body(std::initializer_list<TuneCase> cases) {
    for (const TuneCase& one : cases) {
        CAPTURE(one.body);
        const Lines lines = lines_of(std::string("X:1\nK:C\n") + one.body + "\n");
        CHECK(lines.words == std::string("X(1) K(C)") + (*one.words != '\0' ? " " : "") + one.words);
        CHECK(lines.codes == one.codes);
    }
}

}  // namespace

TEST_CASE("tune tokens: the header ends with the first K:", "[abc][tune_tokens]") {
    // Source: ABC standard 2.1, section 2.2.1.
    CHECK(lines_of("X:1\nT:Rain\nM:6/8\nK:G\nGAB\nM:9/8\nGAB\nK:D\nDEF").words ==
          "X(1) T(Rain) M(6/8) K(G) music M(9/8) music K(D) music");
}

TEST_CASE("tune tokens: letters that may be music are no fields in a body", "[abc][tune_tokens]") {
    // Source: ABC standard 2.1, section 3: A-G, X-Z, a-g and x-z at a line's start.
    check_body({{"A:|", "music"}, {"e:|", "music"}, {"z:|", "music"}, {"G::A", "music"}, {"C:|:D", "music"}});
}

TEST_CASE("tune tokens: other letters with a colon are fields in a body, known or not", "[abc][tune_tokens]") {
    check_body({{"w:la la", "w(la la)"},
                {"J:jolly", "skip", "abc-unknown-field@3:1"},
                {"j:jolly", "skip", "abc-unknown-field@3:1"},
                {"T:part two", "T(part two)"},
                {"s:!f! * !p!", "s(!f! * !p!)"},
                {"P:A", "P(A)"},
                {"m:~G2=GAG", "m(~G2=GAG)"}});
}

TEST_CASE("tune tokens: header fields that stray into a body are dropped with a warning", "[abc][tune_tokens]") {
    check_body({{"S:from the boathouse", "skip", "abc-stray-field@3:1"},
                {"H:long ago", "skip", "abc-stray-field@3:1"},
                {"O:here", "skip", "abc-stray-field@3:1"},
                {"Z:written by hand", "skip", "abc-stray-field@3:1"},
                {"B:blue book", "skip", "abc-stray-field@3:1"},
                {"D:disc", "skip", "abc-stray-field@3:1"},
                {"F:file", "skip", "abc-stray-field@3:1"},
                {"C:trad", "skip", "abc-stray-field@3:1"},
                {"A:area", "skip", "abc-stray-field@3:1"},
                {"G:group", "skip", "abc-stray-field@3:1"}});
}

TEST_CASE("tune tokens: comments and directives", "[abc][tune_tokens]") {
    // Source: ABC standard 2.1, sections 2.2.5 and 11.0.2.
    check_body({{"% GAB", "comment"},
                {"   % GAB", "comment"},
                {"%%stretch GAB", "%%(stretch GAB)"},
                {"GAB % cde", "music"},
                {"%%begintext\n%%GAB\n%%endtext\nGAB", "%%(begintext) comment comment music"},
                {"%%begintext\nGAB\n%%endtext\nGAB", "%%(begintext) comment comment music"}});
    CHECK(lines_of("X:1\nT:half % remark\nK:C % key").words == "X(1) T(half) K(C)");
    CHECK(lines_of("X:1\nT:100\\% wet\nK:C").words == "X(1) T(100\\% wet) K(C)");
}

TEST_CASE("tune tokens: an indented percent pair is a comment, no directive", "[abc][tune_tokens]") {
    // Source: ABC standard 2.1, section 11.0.2: directives stand at the line start only.
    check_body({{"  %%stretch GAB", "comment"}});
}

TEST_CASE("tune tokens: plus and a colon continue a field", "[abc][tune_tokens]") {
    // Source: ABC standard 2.1, section 3.3.
    CHECK(lines_of("X:1\nH:once\n+:upon GAB\nK:C\nGAB\nw:la\n+:la").words ==
          "X(1) H(once) more(upon GAB) K(C) music w(la) more(la)");
}

TEST_CASE("tune tokens: lines under H: without a field letter belong to it", "[abc][tune_tokens]") {
    // Source: ABC standard 2.1, sections 3.1.13 and 10.1.
    const Lines lines = lines_of("X:1\nH:once\nupon a time\nGAB\nT:Rain\nK:C");
    CHECK(lines.words == "X(1) H(once) more(upon a time) more(GAB) T(Rain) K(C)");
    CHECK(lines.codes == "");
}

TEST_CASE("tune tokens: other lines in a header are errors", "[abc][tune_tokens]") {
    const Lines lines = lines_of("X:1\nT:Rain\nlearnt late\nK:C\nGAB");
    CHECK(lines.words == "X(1) T(Rain) skip K(C) music");
    CHECK(lines.codes == "abc-text-in-header@3:1");
}

TEST_CASE("tune tokens: indented fields are fields with a warning", "[abc][tune_tokens]") {
    const Lines lines = lines_of("X:1\n  M:6/8\nK:C\n  w: la\n  GAB");
    CHECK(lines.words == "X(1) M(6/8) K(C) w(la) music");
    CHECK(lines.codes == "abc-indented-field@2:3 abc-indented-field@4:3");
}

TEST_CASE("tune tokens: blanks behind the colon do not matter, before it they do", "[abc][tune_tokens]") {
    CHECK(lines_of("X: 1\nT:\tRain \nK: G \nGAB").words == "X(1) T(Rain) K(G) music");
    CHECK(lines_of("X:1\nT : Rain\nK:G\nGAB").codes == "abc-text-in-header@2:1");
}

TEST_CASE("tune tokens: without any K: the first line of music ends the header", "[abc][tune_tokens]") {
    const Lines lines = lines_of("X:1\nT:Rain\nM:6/8\nGAB c2d|\nEFG|");
    CHECK(lines.words == "X(1) T(Rain) M(6/8) music");
    CHECK(lines.codes == "abc-no-key@4:1");
    CHECK(lines_of("X:1\nT:Rain\n").codes == "abc-no-key@1:1");
}

TEST_CASE("tune tokens: an unknown field letter in a header is skipped", "[abc][tune_tokens]") {
    CHECK(lines_of("X:1\nE:7\nK:C").codes == "abc-unknown-field@2:1");
    CHECK(lines_of("X:1\nk:7\nK:C").codes == "abc-unknown-field@2:1");
}

TEST_CASE("tune tokens: macros are expanded in music only, and end with their tune", "[abc][tune_tokens]") {
    const base::SourceFile source("test.abc", "X:1\nm:~G2=GAG\nK:C\n~G2\n");
    base::Diagnostics diagnostics;
    const abc::Tunebook book = abc::split_tunebook(source, diagnostics);
    abc::Dialect dialect;
    abc::Tokens tokens;
    abc::read_tokens(source, book.blocks.at(0), dialect, tokens, diagnostics);
    int notes = 0;
    for (const abc::Token& token : tokens.all) notes += token.kind == abc::TokenKind::note ? 1 : 0;
    CHECK(notes == 3);
    CHECK(dialect.macros.size() == 1);
    const written::AbcFile file("X:1\nT:A\nm:~G2=GAG\nK:C\n~G2|\n\nX:2\nT:B\nK:C\n~G2|\n");
    CHECK(file.settings().at(0).melody.heads.size() == 3);
    CHECK(file.settings().at(1).melody.heads.size() == 1);
}

TEST_CASE("tune tokens: a line of more than a mebibyte is left out", "[abc][tune_tokens]") {
    const std::string line(abc::kMaxLineBytes + 1, 'G');
    const Lines lines = lines_of("X:1\nK:C\n" + line + "\nGAB\n");
    CHECK(lines.words == "X(1) K(C) skip music");
    CHECK(lines.codes == "abc-long-line@3:1");
    CHECK(lines_of("X:1\nK:C\n" + line.substr(1) + "\n").codes == "");
}
