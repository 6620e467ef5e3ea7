#include "base/source_file.h"

#include <catch2/catch.hpp>
#include <string>

using base::Decoding;
using base::SourceFile;

namespace {

std::string place_words(const SourceFile& source, std::uint32_t offset) {
    const base::Place place = source.place_of(offset);
    return std::to_string(place.line) + ":" + std::to_string(place.column);
}

}  // namespace

TEST_CASE("source file: lines end at LF, CR LF or a lone CR, also mixed", "[base][source]") {
    // Source: ABC standard 2.1, section 8 (line ends).
    const SourceFile source("mixed.abc", "one\ntwo\r\nthree\rfour");
    CHECK(source.line_text(1) == "one");
    CHECK(source.line_text(2) == "two");
    CHECK(source.line_text(3) == "three");
    CHECK(source.line_text(4) == "four");
    CHECK(source.line_text(5).empty());
    CHECK(source.line_text(0).empty());
    CHECK(source.line_begin(3) == 9);
    CHECK(place_words(source, 0) == "1:1");
    CHECK(place_words(source, 3) == "1:4");
    CHECK(place_words(source, 4) == "2:1");
    CHECK(place_words(source, 9) == "3:1");
    CHECK(place_words(source, 15) == "4:1");
    CHECK(place_words(source, 9999) == "4:5");
}

TEST_CASE("source file: columns count letters, not bytes", "[base][source]") {
    const SourceFile source("accents.abc", "T:Été\nGAB");
    CHECK(place_words(source, 2) == "1:3");
    CHECK(place_words(source, 4) == "1:4");  // after the two bytes of É
    CHECK(place_words(source, 7) == "1:6");
    CHECK(place_words(source, 8) == "2:1");
}

TEST_CASE("source file: an empty text has one empty line", "[base][source]") {
    const SourceFile source("empty.abc", "");
    CHECK(place_words(source, 0) == "1:1");
    CHECK(source.line_text(1).empty());
}

TEST_CASE("source file: every offset has a place on the line that holds it", "[base][source]") {
    const std::string text = "a\r\n\r\nb\n\n\rç d\re";
    const SourceFile source("law.abc", text);
    std::uint32_t line_before = 1;
    for (std::uint32_t offset = 0; offset <= text.size(); ++offset) {
        const base::Place place = source.place_of(offset);
        CHECK(place.line >= line_before);
        CHECK(source.line_begin(place.line) <= offset);
        CHECK(place.column >= 1);
        line_before = place.line;
    }
}

TEST_CASE("source file: what is read otherwise keeps the places of what is written", "[base][source]") {
    // Three bytes read as one, a line end read as nothing, one byte read as two.
    const SourceFile source =
        SourceFile("law.abc", "ab=20c\nd=\ne*f\n").rewritten({{{2, 5}, " "}, {{8, 10}, ""}, {{11, 12}, "12"}});
    CHECK(source.text() == "ab c\nde12f\n");
    CHECK(source.written() == "ab=20c\nd=\ne*f\n");
    const auto place = [&](std::uint32_t offset) {
        return std::to_string(source.place_of(offset).line) + ":" + std::to_string(source.place_of(offset).column);
    };
    CHECK(place(0) == "1:1");
    CHECK(place(2) == "1:3");
    CHECK(place(3) == "1:6");
    CHECK(place(5) == "2:1");
    CHECK(place(6) == "3:1");
    CHECK(place(7) == "3:2");
    CHECK(place(8) == "3:2");
    CHECK(place(9) == "3:3");
    CHECK(place(99) == "4:1");
    CHECK(source.line_text(2) == "d=");
    CHECK(source.line_text(3) == "e*f");
}

TEST_CASE("source file: a byte order mark is dropped", "[base][source]") {
    // Source: ABC standard 2.1, section 2.1.
    const SourceFile source = base::decode_source("bom.abc", "\xEF\xBB\xBFX:1\n");
    CHECK(source.text() == "X:1\n");
    CHECK(source.decoding() == Decoding::utf8);
}

TEST_CASE("source file: byte order marks of files that were put together are dropped too", "[base][source]") {
    const std::string mark = "\xEF\xBB\xBF";
    CHECK(base::decode_source("two.abc", mark + mark + "X:1\n").text() == "X:1\n");
    CHECK(base::decode_source("both.abc", mark + "X:1\nK:C\r" + mark + "X:2\n\n" + mark + mark + "X:3").text() ==
          "X:1\nK:C\rX:2\n\nX:3");
    CHECK(base::decode_source("within.abc", "T:a" + mark + "b\n").text() == "T:a" + mark + "b\n");
}

TEST_CASE("source file: a named charset is obeyed", "[base][source]") {
    // Source: ABC standard 2.1, section 3.1.17.
    for (const char* head : {"I:abc-charset iso-8859-2\n", "%%abc-charset iso-8859-2\n", "I: abc-charset ISO-8859-2\n",
                             "%abc\nI:abc-charset\tiso-8859-2\r\n"}) {
        CAPTURE(head);
        const SourceFile source = base::decode_source("named.abc", std::string(head) + "T:\xB1");
        CHECK(source.decoding() == Decoding::named_charset);
        CHECK(source.text() == std::string(head) + "T:ą");
    }
    CHECK(base::decode_source("ten.abc", "I:abc-charset iso-8859-10\nT:\xBF").text() ==
          "I:abc-charset iso-8859-10\nT:ŋ");
}

TEST_CASE("source file: a charset named utf-8 or not known leaves UTF-8 alone", "[base][source]") {
    for (const char* name : {"utf-8", "us-ascii", "iso-8859-77", "klingon"}) {
        const std::string text = std::string("%%abc-charset ") + name + "\nT:é";
        CAPTURE(name);
        CHECK(base::decode_source("utf.abc", text).text() == text);
    }
}

TEST_CASE("source file: the word abc-charset inside a title names nothing", "[base][source]") {
    const SourceFile source = base::decode_source("title.abc", "X:1\nT:my abc-charset iso-8859-5 notes\nT:\xE9\n");
    CHECK(source.decoding() == Decoding::assumed_windows_1252);
    CHECK(source.text() == "X:1\nT:my abc-charset iso-8859-5 notes\nT:é\n");
}

TEST_CASE("source file: bytes that are no UTF-8 and name no charset are read as Windows-1252", "[base][source]") {
    const SourceFile source = base::decode_source("old.abc",
                                                  "T:\x93"
                                                  "Caf\xE9\x94");
    CHECK(source.decoding() == Decoding::assumed_windows_1252);
    CHECK(source.text() == "T:“Café”");
}

TEST_CASE("source file: a NUL near the start is no text", "[base][source]") {
    CHECK(base::looks_binary(std::string("X:1\n\0", 5)));
    CHECK_FALSE(base::looks_binary("X:1\n"));
    CHECK_FALSE(base::looks_binary(""));
}

TEST_CASE("source file: a column far out in a line is the one that counting from its beginning gives", "[base]") {
    std::string text = "short\n";
    for (int at = 0; at < 3000; ++at) text += at % 3 == 0 ? "\xC3\xA9" : "x";
    text += "\nlast";
    const base::SourceFile file("long.abc", text);
    std::uint32_t column = 1;
    for (std::uint32_t at = 6; at < text.size() && text[at] != '\n'; ++at) {
        const bool is_inside = (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
        if (!is_inside) CHECK(file.place_of(at).column == column++);
    }
    CHECK(file.place_of(static_cast<std::uint32_t>(text.size())).column == 5);
    CHECK(base::SourceFile("empty.abc", "").place_of(0).column == 1);
}
