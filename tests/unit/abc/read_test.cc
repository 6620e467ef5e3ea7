// The room's door: line ends, identity, and files that were damaged.
#include "abc/read.h"

#include <catch2/catch.hpp>
#include <random>
#include <string>

#include "report/pages/reading.h"
#include "written.h"

using written::AbcFile;
using written::joined;

namespace {

const std::string kTwoTunes =
    "%abc-2.1\n"
    "M:4/4\n"
    "L:1/8\n"
    "I:linebreak $\n"
    "\n"
    "X:1\n"
    "T:Rain on the Slipway\n"
    "T:Wet Stones\n"
    "R:reel\n"
    "m:~n2=(3non\n"
    "U:W=!trill!\n"
    "K:Ador\n"
    "|:\"Am\"A2 (3^c=cB {e}A>B-|Bd {/g}e2 ~g2 z2:|1 [Ace]4 WA4:|2 A8||\n"
    "P:B\n"
    "[M:6/8][K:Em exp ^f] efg \\\n"
    "% a remark between\n"
    "gfe|[V:2]E3 [^G-B]3|&B,6|!fermata!e,'_e__e/|]\n"
    "w:la la * la\n"
    "+:la\n"
    "W:that was it\n"
    "\n"
    "Some words between.\n"
    "\n"
    "X:2\n"
    "T:Caf\xC3\xA9 \\'Etoile\n"
    "K:G clef=treble-8 transpose=2 % key\n"
    "(5GABcd (3:2:4c2B2AG|.A.B !f!c2|Z2|x2 y H[GB]/ ^/c+GB+ #*|\n";

std::string sounding(const AbcFile& file) {
    std::string text;
    for (const tune::Setting& setting : file.settings())
        text +=
            joined(report::pitch_words(setting.melody)) + " / " + joined(report::length_words(setting.melody)) + "\n";
    return text;
}

std::string with_line_ends(const std::string& text, const std::string& end) {
    std::string changed;
    for (const char c : text) changed += c == '\n' ? end : std::string(1, c);
    return changed;
}

}  // namespace

TEST_CASE("read: line ends of every kind give the same tunes and findings", "[abc][read]") {
    // Source: ABC standard 2.1, section 8 (line ends).
    const AbcFile plain(kTwoTunes);
    REQUIRE(plain.settings().size() == 2);
    for (const std::string end : {"\r\n", "\r"}) {
        const AbcFile other(with_line_ends(kTwoTunes, end));
        CHECK(sounding(other) == sounding(plain));
        CHECK(other.findings() == plain.findings());
        for (std::size_t at = 0; at < 2; ++at) {
            CHECK(other.settings()[at].titles == plain.settings()[at].titles);
            CHECK(other.settings()[at].line == plain.settings()[at].line);
        }
    }
}

TEST_CASE("read: a byte order mark changes nothing", "[abc][read]") {
    const base::SourceFile source = base::decode_source("test.abc", "\xEF\xBB\xBF" + kTwoTunes);
    CHECK(AbcFile(std::string(source.text())).findings() == AbcFile(kTwoTunes).findings());
}

TEST_CASE("read: a tune knows its line, its stretch of the file and its number", "[abc][read]") {
    const AbcFile file(kTwoTunes);
    REQUIRE(file.settings().size() == 2);
    CHECK(file.settings()[0].number == "1");
    CHECK(file.settings()[0].line == 6);
    CHECK(file.settings()[1].line == 24);
    const base::Span where = file.settings()[1].where;
    const std::string block = std::string(file.source().text().substr(where.begin, where.end - where.begin));
    CHECK(block.substr(0, 3) == "X:2");
    CHECK(block.substr(block.size() - 3) == "#*|");
    CHECK(file.settings()[1].titles == std::vector<std::string>{"Café Étoile"});
}

TEST_CASE("read: a tune's line is that of its X:, its stretch the whole block with what stands above", "[abc][read]") {
    const AbcFile file("X:1\nT:a\nK:C\nC\n\n% second\n% tune\nX:2\nT:b\nK:C\nC\n");
    REQUIRE(file.settings().size() == 2);
    CHECK(file.settings()[1].line == 8);
    CHECK(file.source().text().substr(file.settings()[1].where.begin, 8) == "% second");
}

TEST_CASE("read: free text and headers hold no tunes", "[abc][read]") {
    CHECK(AbcFile("").settings().empty());
    CHECK(AbcFile("GABc dBAG\n\nmore words\n").settings().empty());
    CHECK(AbcFile("M:6/8\n\n").settings().empty());
    CHECK(AbcFile("Some words.\n\nX:1\nT:t\nK:C\nC\n\nGABc\n").settings().size() == 1);
}

TEST_CASE("read: one bad tune costs a tune", "[abc][read]") {
    const AbcFile file("X:1\nT:a\nK:C\nCDE\n\nX:2\nK:?\n^[{\"(((\n\nX:3\nT:c\nK:D\nDEF\n");
    REQUIRE(file.settings().size() == 3);
    CHECK(joined(report::pitch_words(file.settings()[0].melody)) == "60 62 64");
    CHECK(joined(report::pitch_words(file.settings()[2].melody)) == "62 64 66");
    CHECK(file.settings()[0].errors == 0);
    CHECK(file.settings()[1].errors > 0);
    CHECK(file.settings()[2].errors == 0);
}

TEST_CASE("read: one bad note costs a note", "[abc][read]") {
    const std::string head = "X:1\nT:t\nL:1/8\nK:C\n";
    for (const char* bad : {"^|", "#", "A,,,,,,,,,", "q", "\xC3\xA9", "*", "\x01", "]", "}", "1", "+"}) {
        CAPTURE(bad);
        const AbcFile file(head + "CDE " + bad + " FGA\n");
        CHECK(joined(report::pitch_words(file.only().melody)) == "60 62 64 65 67 69");
    }
}

TEST_CASE("read: bytes lost or put in never stop the reading, and every finding lies in the text", "[abc][read]") {
    std::mt19937 random(20111231);
    const std::string alphabet = "ABcz^_=,'2/>-()[]{}|:\"!+~.&$\\%#*\n\r XKMLV:;\t\x01\x80\xC3\xFF";
    for (int round = 0; round < 2000; ++round) {
        std::string text = kTwoTunes;
        for (int change = static_cast<int>(random() % 4); change >= 0; --change) {
            const std::size_t at = random() % text.size();
            switch (random() % 3) {
                case 0:
                    text.erase(at, 1 + random() % 5);
                    break;
                case 1:
                    text.insert(at, 1, alphabet[random() % alphabet.size()]);
                    break;
                default:
                    text[at] = alphabet[random() % alphabet.size()];
                    break;
            }
        }
        const base::SourceFile source = base::decode_source("damaged.abc", text);
        base::Diagnostics diagnostics;
        const auto settings = abc::read_settings(source, diagnostics);
        const std::size_t size = source.text().size();
        for (const base::Diagnostic& diagnostic : diagnostics.kept())
            if (diagnostic.where.begin > diagnostic.where.end || diagnostic.where.end > size)
                FAIL(diagnostic.code << " at " << diagnostic.where.begin << ".." << diagnostic.where.end << " of "
                                     << size << "\n"
                                     << text);
        for (const tune::Setting& setting : settings) {
            if (setting.where.end > size || setting.where.begin > setting.where.end) FAIL("a tune outside\n" << text);
            for (const music::Sound& sound : setting.melody.sounds) {
                if (sound.where.end > size || sound.bar >= setting.melody.bars.size())
                    FAIL("a sound outside\n" << text);
                if (sound.first_head + sound.head_count > setting.melody.heads.size()) FAIL("a head outside\n" << text);
                if (sound.length.numerator() < 0) FAIL("a length below nothing\n" << text);
            }
            for (const music::NoteHead& head : setting.melody.heads)
                if (head.midi < 0 || head.midi > 127) FAIL("a note outside MIDI\n" << text);
        }
    }
    SUCCEED();
}

TEST_CASE("read: walking the tokens meets every block once", "[abc][read]") {
    const base::SourceFile source("test.abc", kTwoTunes);
    base::Diagnostics diagnostics;
    std::string kinds;
    std::size_t tokens_seen = 0;
    abc::walk_tokens(source, diagnostics, [&](const abc::Block& block, const abc::Tokens& tokens) {
        kinds += block.kind == abc::Block::Kind::tune          ? "tune "
                 : block.kind == abc::Block::Kind::file_header ? "header "
                                                               : "text ";
        tokens_seen += tokens.all.size();
        if (block.kind == abc::Block::Kind::free_text) CHECK(tokens.all.empty());
    });
    CHECK(kinds == "header tune text tune ");
    CHECK(tokens_seen > 100);
}

TEST_CASE("read: a hostile file is read in good time", "[abc][read]") {
    // Not a stopwatch: work that grows with the square of these sizes would not end within the test run.
    const std::string head = "X:1\nT:t\nL:1/8\nK:C\n";
    CHECK(AbcFile(head + std::string(500000, '[') + "\n").settings().size() == 1);
    CHECK(AbcFile(head + std::string(500000, '(') + "\n").settings().size() == 1);
    CHECK(AbcFile(head + std::string(500000, '+') + "\n").settings().size() == 1);
    CHECK(AbcFile(head + std::string(500000, '!') + "\n").settings().size() == 1);
    CHECK(AbcFile(head + std::string(300000, '\n')).settings().size() == 1);
    std::string bars;
    for (int bar = 0; bar < 100000; ++bar) bars += "[C-E-]|&";
    CHECK(AbcFile(head + bars + "\n").settings().size() == 1);
}
