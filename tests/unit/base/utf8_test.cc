#include "base/utf8.h"

#include <catch2/catch.hpp>
#include <string>

using base::Charset;

TEST_CASE("utf8: well-formed bytes are told from broken ones", "[base][utf8]") {
    // Source: RFC 3629, sections 3, 4 and 10.
    for (const char* good : {"", "plain", "\xC3\xA9", "\xE2\x82\xAC", "\xF0\x9D\x84\x9E", "\xED\x9F\xBF",
                             "\xEE\x80\x80", "\xF4\x8F\xBF\xBF"}) {
        CAPTURE(good);
        CHECK(base::is_utf8(good));
    }
    for (const char* bad :
         {"\x80", "\xC3", "\xC3(", "\xC0\xAF", "\xC1\xBF", "\xE0\x80\xAF", "\xE2\x82", "\xED\xA0\x80",
          "\xF0\x80\x80\xAF", "\xF4\x90\x80\x80", "\xF8\x88\x80\x80\x80", "\xFE", "\xFF", "good then \xE9"}) {
        CAPTURE(bad);
        CHECK_FALSE(base::is_utf8(bad));
    }
}

TEST_CASE("utf8: every code point written is read back as well-formed", "[base][utf8]") {
    std::size_t surrogates = 0;
    for (std::uint32_t code_point = 1; code_point < 0x110000;
         code_point += code_point < 0x3000 || code_point > 0xD700 ? 1 : 61) {
        if (code_point >= 0xE000 && code_point < 0x10FFFF)
            code_point = std::min<std::uint32_t>(code_point + 997, 0x10FFFF);
        std::string text;
        base::append_code_point(text, code_point);
        if (code_point >= 0xD800 && code_point <= 0xDFFF)
            surrogates += text == "\uFFFD" ? 1U : 0U;
        else if (!base::is_utf8(text) || text.empty())
            FAIL("code point " << code_point);
    }
    CHECK(surrogates == 0x800);
}

TEST_CASE("utf8: a code point beyond Unicode becomes the replacement sign", "[base][utf8]") {
    std::string text;
    base::append_code_point(text, 0x110000);
    CHECK(text == "\uFFFD");
}

TEST_CASE("utf8: each charset has its own upper half", "[base][utf8]") {
    // Source: the mapping tables of ISO/IEC 8859-1 to -10 and Windows-1252 published by Unicode; these rows from
    // memory.
    struct Row {
        Charset charset;
        const char* bytes;
        const char* text;
    };
    const Row rows[] = {{Charset::windows_1252, "\x80\x93\x94\xE9", "€“”é"},
                        {Charset::iso_8859_1, "\xE9\xF1\xDF", "éñß"},
                        {Charset::iso_8859_2, "\xB1\xE8\xF8", "ąčř"},
                        {Charset::iso_8859_3, "\xA6\xB1", "Ĥħ"},
                        {Charset::iso_8859_4, "\xA2\xBF", "ĸŋ"},
                        {Charset::iso_8859_5, "\xD0\xEF", "ая"},
                        {Charset::iso_8859_6, "\xC7\xC8", "اب"},
                        {Charset::iso_8859_7, "\xE1\xE2", "αβ"},
                        {Charset::iso_8859_8, "\xE0\xE1", "אב"},
                        {Charset::iso_8859_9, "\xFD\xFE\xDD", "ışİ"},
                        {Charset::iso_8859_10, "\xAF\xBF", "Ŋŋ"}};
    for (const Row& row : rows) {
        CAPTURE(row.text);
        CHECK(base::decode(row.bytes, row.charset) == row.text);
    }
}

TEST_CASE("utf8: in Latin-1 every byte is the code point of its number", "[base][utf8]") {
    // Source: ISO/IEC 8859-1 is the first block of Unicode.
    for (int byte = 1; byte < 256; ++byte) {
        std::string expected;
        base::append_code_point(expected, static_cast<std::uint32_t>(byte));
        const std::string one(1, static_cast<char>(byte));
        if (base::decode(one, Charset::iso_8859_1) != expected) FAIL("byte " << byte);
    }
    SUCCEED();
}

TEST_CASE("utf8: plain ASCII is the same in every charset", "[base][utf8]") {
    std::string ascii;
    for (char c = 1; c < 127; ++c) ascii += c;
    for (int charset = 0; charset <= static_cast<int>(Charset::iso_8859_10); ++charset)
        CHECK(base::decode(ascii, static_cast<Charset>(charset)) == ascii);
}

TEST_CASE("utf8: a byte the charset leaves open becomes the replacement sign, wherever it stands", "[base][utf8]") {
    CHECK(base::decode("a\x81z", Charset::windows_1252) == "a\uFFFDz");
    for (std::size_t before = 4085; before < 4100; ++before) {
        CAPTURE(before);
        CHECK(base::decode(std::string(before, 'a') + "\x81\x8D" + "z", Charset::windows_1252) ==
              std::string(before, 'a') + "\uFFFD\uFFFDz");
        CHECK(base::decode(std::string(before, 'a') + "\xE9z", Charset::windows_1252) ==
              std::string(before, 'a') + "éz");
    }
}

TEST_CASE("utf8: folding drops case, accents and compatibility forms", "[base][utf8]") {
    CHECK(base::fold("The FERRY") == "the ferry");
    CHECK(base::fold("Élan Vítězí") == "elan vitezi");
    CHECK(base::fold("e\u0301") == base::fold("é"));
    CHECK(base::fold("Straße") == "strasse");
    CHECK(base::fold("ﬁn") == "fin");
    CHECK(base::fold("ＡＢＣ") == "abc");
    CHECK(base::fold("") == "");
    for (const char* text : {"Straße", "Ångström ﬁ", "ΣΊΣΥΦΟΣ", "İstanbul", "\xFF broken"}) {
        CAPTURE(text);
        CHECK(base::fold(base::fold(text)) == base::fold(text));
    }
}

TEST_CASE("utf8: a letter and its mark become one letter", "[base][utf8]") {
    // Source: Unicode Standard Annex 15, normal form C.
    CHECK(base::composed("e\u0301") == "é");
    CHECK(base::composed("o\u0308u\u0308") == "öü");
    CHECK(base::composed("q\u0301") == "q\u0301");
}

TEST_CASE("utf8: width counts columns of a terminal", "[base][utf8]") {
    // Source: Unicode Standard Annex 11, East Asian width.
    CHECK(base::display_width("") == 0);
    CHECK(base::display_width("reel") == 4);
    CHECK(base::display_width("café") == 4);
    CHECK(base::display_width("cafe\u0301") == 4);
    CHECK(base::display_width("漢字") == 4);
    CHECK(base::display_width("\uFF21") == 2);
}

TEST_CASE("utf8: nothing printable can drive a terminal", "[base][utf8]") {
    CHECK(base::printable("plain é ♯") == "plain é ♯");
    CHECK(base::printable("a\x1b[31mb") == "a [31mb");
    CHECK(base::printable("a\tb\r\nc\x7F") == "a b  c ");
    CHECK(base::printable("a\u0085b\u009Bc") == "a b c");
    CHECK(base::printable("a\u202Eb\u2066c\u2028d") == "a b c d");
    CHECK(base::printable("a\u200Eb\u200Fc\u061Cd") == "a b c d");
    CHECK(base::printable("a\xFF"
                          "b\xC3") == "a\uFFFDb\uFFFD");
    for (int byte = 0; byte < 256; ++byte) {
        const std::string shown = base::printable(std::string(1, static_cast<char>(byte)));
        if (!base::is_utf8(shown) || static_cast<unsigned char>(shown[0]) < 0x20) FAIL("byte " << byte);
    }
}
