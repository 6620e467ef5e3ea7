#include "abc/tunebook.h"

#include <catch2/catch.hpp>
#include <string>

namespace {

struct Split {
    std::string words;
    std::string codes;
};

// `tune@3` for a tune whose first line is the third.
Split split(const std::string& text) {
    const base::SourceFile source("test.abc", text);
    base::Diagnostics diagnostics;
    Split result;
    for (const abc::Block& block : abc::split_tunebook(source, diagnostics).blocks) {
        const char* kind = block.kind == abc::Block::Kind::tune          ? "tune"
                           : block.kind == abc::Block::Kind::file_header ? "header"
                                                                         : "text";
        result.words += (result.words.empty() ? "" : " ") + std::string(kind) + "@" + std::to_string(block.line);
    }
    for (const base::Diagnostic& diagnostic : diagnostics.kept())
        result.codes += (result.codes.empty() ? "" : " ") + std::string(diagnostic.code) + "@" +
                        std::to_string(source.place_of(diagnostic.where.begin).line);
    return result;
}

bool is_strict(const std::string& text) {
    const base::SourceFile source("test.abc", text);
    base::Diagnostics diagnostics;
    return abc::split_tunebook(source, diagnostics).is_strict;
}

}  // namespace

TEST_CASE("tunebook: tunes are parted by empty lines", "[abc][tunebook]") {
    // Source: ABC standard 2.1, section 2.2.
    const Split result = split("X:1\nT:A\nK:C\nCDE\n\nX:2\nT:B\nK:D\nDEF\n");
    CHECK(result.words == "tune@1 tune@6");
    CHECK(result.codes == "");
}

TEST_CASE("tunebook: a line of blanks is empty, a comment line is not", "[abc][tunebook]") {
    // Source: ABC standard 2.1, sections 2.2.4 and 2.2.5.
    CHECK(split("X:1\nK:C\nCDE\n \t \nX:2\nK:D\nDEF\n").words == "tune@1 tune@5");
    CHECK(split("X:1\nK:C\nCDE\n   % a remark\nDEF\n").words == "tune@1");
    CHECK(split("X:1\nK:C\nCDE\n%\nDEF\n").words == "tune@1");
}

TEST_CASE("tunebook: any line end parts lines", "[abc][tunebook]") {
    // Source: ABC standard 2.1, section 8 (line ends).
    for (const std::string end : {"\n", "\r\n", "\r"}) {
        const std::string text = "X:1" + end + "K:C" + end + "CDE" + end + end + "X:2" + end + "K:D" + end + "DEF";
        CHECK(split(text).words == "tune@1 tune@5");
    }
    CHECK(split("X:1\rK:C\r\nCDE\n\r\nX:2\nK:D").words == "tune@1 tune@5");
}

TEST_CASE("tunebook: fields at the very top are the file header", "[abc][tunebook]") {
    // Source: ABC standard 2.1, section 2.2.2.
    CHECK(split("%abc-2.1\nM:6/8\nL:1/8\n\nX:1\nK:C\nCDE").words == "header@1 tune@5");
    CHECK(split("%%linebreak $\n\nX:1\nK:C\nCDE").words == "header@1 tune@3");
    CHECK(split("%abc-2.1\nX:1\nK:C\nCDE").words == "header@1 tune@2");
    CHECK(split("%abc-2.1\nX:1\nK:C\nCDE").codes == "");
}

TEST_CASE("tunebook: fields between tunes are text, with a warning", "[abc][tunebook]") {
    // Source: ABC standard 2.1, sections 2.2.2 and 10.5.2.
    const Split result = split("X:1\nK:C\nCDE\n\nM:6/8\nL:1/8\n\nX:2\nK:D\nDEF\n");
    CHECK(result.words == "tune@1 text@5 tune@8");
    CHECK(result.codes == "abc-fields-outside@5");
}

TEST_CASE("tunebook: other blocks are text and no music", "[abc][tunebook]") {
    // Source: ABC standard 2.1, section 2.2.3.
    const Split result = split("Tunes of the winter term.\nABC and so on.\n\nX:1\nK:C\nCDE\n\nBAGABBB\n");
    CHECK(result.words == "text@1 tune@4 text@8");
    CHECK(result.codes == "");
    CHECK(split("Subject: a tune\nFrom: the boathouse\n\nX:1\nK:C\nC\n").words == "text@1 tune@4");
}

TEST_CASE("tunebook: music after the empty line that ended its tune is text, with a warning", "[abc][tunebook]") {
    // Source: ABC standard 2.1, section 2.2.4.
    const Split result = split("X:1\nT:A\nK:C\nCDE FGA|\n\nGFE DCB,|\n");
    CHECK(result.words == "tune@1 text@6");
    CHECK(result.codes == "abc-music-outside@6");
    CHECK(split("X:1\nT:A\nK:C\nCDE FGA|\n\nAda played it | so she said\n").codes == "");
}

TEST_CASE("tunebook: typeset text starts no tune, whatever it looks like", "[abc][tunebook]") {
    // Source: ABC standard 2.1, section 11.4.5.
    CHECK(split("X:1\nT:A\nK:C\nC|\n%%begintext\nX:9\nK:D\n%%endtext\nD|\n").words == "tune@1");
}

TEST_CASE("tunebook: X: without an empty line before it starts a new tune", "[abc][tunebook]") {
    // Source: common practice, no source; the standard is silent.
    const Split result = split("X:1\nT:A\nK:C\nCDE\nX:2\nT:B\nK:D\nDEF\n");
    CHECK(result.words == "tune@1 tune@5");
    CHECK(result.codes == "abc-no-blank-line@5");
}

TEST_CASE("tunebook: X: before a bar sign in a tune is a rest and a repeat, not a tune", "[abc][tunebook]") {
    // Source: ABC standard 2.1, section 3: X names no field in a tune body.
    CHECK(split("X:1\nT:A\nM:4/4\nK:C\n|:C8|\nX:|\nD8|\n").words == "tune@1");
}

TEST_CASE("tunebook: a title above the number belongs to its tune", "[abc][tunebook]") {
    const Split result = split("T:Rain\nX:1\nK:C\nCDE\n");
    CHECK(result.words == "tune@1");
}

TEST_CASE("tunebook: a comment above a later tune belongs to it", "[abc][tunebook]") {
    CHECK(split("X:1\nK:C\nC\n\n% second\nX:2\nK:D\nD\n").words == "tune@1 tune@5");
    CHECK(split("X:1\nK:C\nC\n\n% second\nX:2\nK:D\nD\n").codes == "");
}

TEST_CASE("tunebook: a tune without X: is one when it has a key", "[abc][tunebook]") {
    CHECK(split("T:Rain\nK:C\nCDE\n").words == "tune@1");
    CHECK(split("X:1\nK:C\nC\n\nT:Rain\nK:C\nCDE\n").words == "tune@1 tune@5");
}

TEST_CASE("tunebook: an empty file has no blocks", "[abc][tunebook]") {
    CHECK(split("").words == "");
    CHECK(split("\n \n\t\n").words == "");
}

TEST_CASE("tunebook: the blocks hold every line that is not empty, in order", "[abc][tunebook]") {
    const std::string lines[] = {"X:1", "K:C", "CDE", "", "% c", "T:t", "text", " ", "%%d", "+:more"};
    unsigned state = 99;
    for (int round = 0; round < 3000; ++round) {
        std::string text;
        for (int line = 0; line < 14; ++line) {
            state = state * 1664525U + 1013904223U;
            text += lines[(state >> 16) % 10] + "\n";
        }
        const base::SourceFile source("test.abc", text);
        base::Diagnostics diagnostics;
        std::string left = text;
        std::uint32_t end = 0;
        for (const abc::Block& block : abc::split_tunebook(source, diagnostics).blocks) {
            if (block.where.begin < end || block.where.end < block.where.begin || block.where.end > text.size())
                FAIL(text);
            if (source.place_of(block.where.begin).line != block.line) FAIL(text);
            end = block.where.end;
            for (std::uint32_t at = block.where.begin; at < block.where.end; ++at) left[at] = ' ';
        }
        if (left.find_first_not_of(" \n") != std::string::npos) FAIL(text);
    }
    SUCCEED();
}

TEST_CASE("tunebook: a version of 2.1 or later asks for strict reading", "[abc][tunebook]") {
    // Source: ABC standard 2.1, sections 2.1 and 12.
    CHECK(is_strict("%abc-2.1\n"));
    CHECK(is_strict("%abc-2.2\n"));
    CHECK(is_strict("%abc-3.0\n"));
    CHECK_FALSE(is_strict("%abc\n"));
    CHECK_FALSE(is_strict("%abc-2.0\n"));
    CHECK_FALSE(is_strict("%abc-1.6\n"));
    CHECK_FALSE(is_strict("X:1\n%abc-2.1\n"));
}

TEST_CASE("tunebook: a text looks like ABC when a K: follows an X: in one block", "[abc][tunebook]") {
    CHECK(abc::looks_like_abc("X:1\nT:Rain\nK:C\n"));
    CHECK(abc::looks_like_abc("words\n\nX:1\r\nK:C\r\n"));
    CHECK_FALSE(abc::looks_like_abc("X:1\n\nK:C\n"));
    CHECK_FALSE(abc::looks_like_abc("K:C\nX:1\n"));
    CHECK_FALSE(abc::looks_like_abc("a letter about an X: ray\n"));
    CHECK_FALSE(abc::looks_like_abc(""));
}
