#include "abc/mail_residue.h"

#include <catch2/catch.hpp>
#include <random>
#include <string>

#include "abc/read.h"

namespace {

std::string in_tune(const std::string& music) { return "X:1\nT:Lantern\nL:1/8\nK:C\n" + music; }
base::SourceFile read(const std::string& text) { return abc::without_residue(base::SourceFile("test.abc", text)); }
std::string music_of(const std::string& written) {
    const std::string text(read(in_tune(written)).text());
    return text.substr(in_tune("").size());
}

}  // namespace

// Source: RFC 2045, section 6.7, for every code here.
TEST_CASE("mail residue: two signs are decoded, one is a slip", "[abc][residue]") {
    CHECK(music_of("=3DBc=20\n") == "=Bc \n");
    CHECK(music_of("=3Dbc =3DB\n") == "=bc =B\n");
    CHECK(music_of("=3dB=20\n") == "=B \n");
    CHECK(music_of("=3DBc\n") == "=3DBc\n");
    CHECK(music_of("Bc=20\n") == "Bc=20\n");
}

TEST_CASE("mail residue: one sign counts where the file has three", "[abc][residue]") {
    const std::string clean = in_tune("CDE\n");
    const std::string once = in_tune("CDE=20\n");
    CHECK(read(once + "\n" + once).text() == once + "\n" + once);
    CHECK(read(once + "\n" + once + "\n" + clean + "\n" + once).text().find("=20") == std::string::npos);
}

TEST_CASE("mail residue: what may be a natural before a note is one", "[abc][residue]") {
    CHECK(music_of("=D3 =C3=A9 =E9 =B2=FF=20=20\n") == "=D3 =C3=A9 =E9 =B2=FF  \n");
    CHECK(music_of("=3DD3 =3D=20B\n") == "=D3 = B\n");
    CHECK(music_of("=A0c=C2=A0d=3Dd=20\n") == " c d=d \n");  // no-break blanks: no note is nought long
}

TEST_CASE("mail residue: naturals of every letter and length stay untouched", "[abc][residue]") {
    std::mt19937 random(15);
    const std::string letters = "CDEFGABcdefgab";
    for (int tune = 0; tune < 300; ++tune) {
        std::string music;
        for (int note = 0; note < 40; ++note) {
            music += random() % 2 == 0 ? "=" : "";
            music += letters[random() % letters.size()];
            if (random() % 2 == 0) music += std::to_string(random() % 17);
            if (random() % 5 == 0) music += " | ";
        }
        CAPTURE(music);
        CHECK(music_of(music + "\n") == music + "\n");
    }
}

TEST_CASE("mail residue: soft line ends join, but not over a field or an empty line", "[abc][residue]") {
    CHECK(music_of("C2=3DB2 =\nd2=20\n") == "C2=B2 d2 \n");
    CHECK(music_of("C2=3DB2 =\r\nd2=20\r\n") == "C2=B2 d2 \r\n");
    CHECK(music_of("C2=3DB2=20=\nw:la\n") == "C2=B2 \nw:la\n");
    CHECK(music_of("C2=3DB2=20=\n\nX:2\n") == "C2=B2 \n\nX:2\n");
    CHECK(music_of("C2=3DB2=20=") == "C2=B2 ");
}

TEST_CASE("mail residue: long broken lines are a sign by themselves, short ones are none", "[abc][residue]") {
    const std::string line(60, 'C');
    CHECK(music_of(line + "=\nD\n" + line + "=\nE\n") == line + "D\n" + line + "E\n");
    CHECK(music_of("C =\nD =\nE\n") == "C =\nD =\nE\n");
}

TEST_CASE("mail residue: words are decoded whole, numbers are not", "[abc][residue]") {
    CHECK(read("X:1\nT:Caf=C3=A9 =E9t=E9=20\nK:C\nC\n").text() == "X:1\nT:Caf\u00E9 \u00E9t\u00E9 \nK:C\nC\n");
    CHECK(read("X:1\nN:don=92t=20\nN:1/4=84, 1/4=20\nQ:1/4=3D60\nK:C\nC\n").text() ==
          "X:1\nN:don\u2019t \nN:1/4=84, 1/4=20\nQ:1/4=60\nK:C\nC\n");
    CHECK(read("X:1\nT:a=20\nQ:1/4=20\nV:1 transpose=24\nK:C\n[Q:1/4=60]C=20\n").text() ==
          "X:1\nT:a \nQ:1/4=20\nV:1 transpose=24\nK:C\n[Q:1/4=60]C \n");
    CHECK(music_of("\"=C3=A9\"C=20\n\"^caf=E9\"D=20\n") == "\"\u00E9\"C \n\"^caf\u00E9\"D \n");
}

TEST_CASE("mail residue: places are those of the file", "[abc][residue]") {
    const base::SourceFile source = read("X:1\nT:a=20\nK:C\nC=3DB =\nD ]E\n\nX:2\nT:b\nK:C\nF ]G\n");
    base::Diagnostics diagnostics;
    const auto settings = abc::read_settings(source, diagnostics);
    REQUIRE(settings.size() == 2);
    CHECK(settings[0].line == 1);
    CHECK(settings[1].line == 7);
    REQUIRE(diagnostics.kept().size() == 3);
    const auto place = [&](std::size_t at) {
        const base::Place found = source.place_of(diagnostics.kept()[at].where.begin);
        return std::to_string(found.line) + ":" + std::to_string(found.column);
    };
    CHECK(place(0) == "2:4");
    CHECK(place(1) == "5:3");
    CHECK(place(2) == "10:3");
    CHECK(base::print_diagnostic(source, diagnostics.kept()[1]) ==
          "test.abc:5:3: warning: ] closes nothing; left out [abc-stray-bracket]\n    D ]E\n      ^\n");
}

TEST_CASE("page residue: entities in music, tags at the ends of lines", "[abc][residue]") {
    CHECK(music_of("&quot;Am&quot;A&gt;B c&lt;d<br>\n") == "\"Am\"A>B c<d\n");
    CHECK(music_of("&amp;quot;Am&amp;quot;A&nbsp;B<BR/>\n") == "\"Am\"A B\n");
    CHECK(music_of("C&#39;D&#62;E & F4\n") == "C'D>E & F4\n");
    CHECK(music_of("\"^a &amp; b\"C & D\n") == "\"^a &amp; b\"C & D\n");  // ABC 2.1, section 8.2
    CHECK(music_of("C<b>c d<BA\n") == "C<b>c d<BA\n");
    CHECK(read("<pre>\nX:1\nT:a &amp; b\nK:C\nC\n</pre>\n").text() == "\nX:1\nT:a &amp; b\nK:C\nC\n\n");
}
