#include "abc/text_string.h"

#include <catch2/catch.hpp>
#include <cstdint>
#include <string>

#include "base/utf8.h"

using abc::plain_text;

namespace {

struct TextCase {
    const char* written;
    const char* plain;
};

void check_text(std::initializer_list<TextCase> cases) {
    for (const TextCase& one : cases) {
        CAPTURE(one.written);
        CHECK(plain_text(one.written) == one.plain);
    }
}

}  // namespace

TEST_CASE("text: backslash mnemonics put an accent on a letter", "[abc][text]") {
    // Source: ABC standard 2.1, sections 8.2 and 14.1; letters by Unicode normal form C.
    check_text({{"\\`a\\`E", "àÈ"},
                {"\\'e\\'A", "éÁ"},
                {"\\^o\\^I", "ôÎ"},
                {"\\~n\\~N", "ñÑ"},
                {"\\\"u\\\"A", "üÄ"},
                {"\\cc\\cC", "çÇ"},
                {"\\aa\\AA", "åÅ"},
                {"\\/o\\/O", "øØ"},
                {"\\ua\\uA", "ăĂ"},
                {"\\vc\\vS", "čŠ"},
                {"\\Ho\\HU", "őŰ"},
                {"\\'y", "ý"},
                {"\\vr", "ř"},
                {"B\\'ona \\^Ile", "Bóna Île"}});
}

TEST_CASE("text: ligatures and old letters have their own mnemonics", "[abc][text]") {
    // Source: ABC standard 2.1, sections 8.2 and 14.1.
    check_text({{"\\AE\\ae", "Ææ"},
                {"\\OE\\oe", "Œœ"},
                {"\\ss", "ß"},
                {"\\DH\\dh", "Ðð"},
                {"\\TH\\th", "Þþ"},
                {"Stra\\sse", "Straße"}});
}

TEST_CASE("text: the cedilla and ring of abc 2.0 are taken", "[abc][text]") {
    check_text({{"\\,c", "ç"}, {"\\oa", "å"}});
}

TEST_CASE("text: code points are written with four or eight hex digits", "[abc][text]") {
    // Source: ABC standard 2.1, section 8.2.
    check_text({{"\\u00e9", "é"},
                {"\\u266F", "♯"},
                {"\\u0022", "\""},
                {"\\U0001D11E", "\U0001D11E"},
                {"\\u00E9t\\u00e9", "été"}});
}

TEST_CASE("text: u before a letter that begins no four hex digits is a breve", "[abc][text]") {
    check_text({{"\\ua", "ă"}, {"\\ubell", "b\u0306ell"}, {"\\uabc", "ăbc"}, {"\\ug", "ğ"}});
}

TEST_CASE("text: HTML entities are resolved", "[abc][text]") {
    // Source: HTML 4.01, section 24; ABC standard 2.1, section 8.2 for the named ones.
    check_text({{"&eacute;", "é"},
                {"&Eacute;", "É"},
                {"&copy;", "©"},
                {"&quot;", "\""},
                {"&amp;", "&"},
                {"&ntilde;", "ñ"},
                {"&ccedil;", "ç"},
                {"&aring;", "å"},
                {"&ouml;", "ö"},
                {"&szlig;", "ß"},
                {"&oslash;", "ø"},
                {"&aelig;", "æ"},
                {"&lt;&gt;", "<>"},
                {"&#233;", "é"},
                {"&#xE9;", "é"},
                {"&ograve;&ecirc;", "òê"}});
}

TEST_CASE("text: every accented letter of Latin-1 has its entity", "[abc][text]") {
    // Source: HTML 4.01, section 24.2 (ISO 8859-1 characters); the names from memory.
    const char* names[] = {
        "Agrave", "Aacute", "Acirc",  "Atilde", "Auml",   "Aring",  "AElig",  "Ccedil", "Egrave", "Eacute", "Ecirc",
        "Euml",   "Igrave", "Iacute", "Icirc",  "Iuml",   "ETH",    "Ntilde", "Ograve", "Oacute", "Ocirc",  "Otilde",
        "Ouml",   "times",  "Oslash", "Ugrave", "Uacute", "Ucirc",  "Uuml",   "Yacute", "THORN",  "szlig",  "agrave",
        "aacute", "acirc",  "atilde", "auml",   "aring",  "aelig",  "ccedil", "egrave", "eacute", "ecirc",  "euml",
        "igrave", "iacute", "icirc",  "iuml",   "eth",    "ntilde", "ograve", "oacute", "ocirc",  "otilde", "ouml",
        "divide", "oslash", "ugrave", "uacute", "ucirc",  "uuml",   "yacute", "thorn",  "yuml"};
    std::uint32_t code_point = 0xC0;
    for (const std::string name : names) {
        std::string letter{static_cast<char>(0xC0 | (code_point >> 6)), static_cast<char>(0x80 | (code_point & 0x3F))};
        CAPTURE(name);
        if (name != "times" && name != "divide") CHECK(plain_text("&" + name + ";") == letter);
        ++code_point;
    }
}

TEST_CASE("text: an ampersand that begins no entity is an ampersand", "[abc][text]") {
    check_text({{"Tin & Gate", "Tin & Gate"},
                {"a&b", "a&b"},
                {"&", "&"},
                {"&;", "&;"},
                {"\\&eacute;", "&eacute;"},
                {"&nonsense;", "&nonsense;"},
                {"&#;", "&#;"},
                {"&#xZZ;", "&#xZZ;"},
                {"a & b; c", "a & b; c"}});
}

TEST_CASE("text: backslash and percent are written with a backslash", "[abc][text]") {
    check_text({{"a\\\\b", "a\\b"}, {"50\\%", "50%"}, {"\\", ""}, {"end\\", "end"}});
}

TEST_CASE("text: font switches leave nothing behind, two dollars are one", "[abc][text]") {
    // Source: ABC standard 2.1, section 8.2 (volatile).
    check_text({{"$1Tin$0 Gate", "Tin Gate"}, {"$4a$2b", "ab"}, {"5$$", "5$"}, {"$9", "$9"}, {"cost $", "cost $"}});
}

TEST_CASE("text: an unknown escape keeps its letter", "[abc][text]") {
    check_text({{"\\q", "q"}, {"\\Q5", "Q5"}, {"\\:", ":"}});
}

TEST_CASE("text: plain text is untouched", "[abc][text]") {
    check_text({{"", ""}, {"Rain on the Slipway", "Rain on the Slipway"}, {"Été 漢字", "Été 漢字"}});
}

TEST_CASE("text: whatever is written, the result is UTF-8", "[abc][text]") {
    const std::string pieces[] = {"\\", "&", "$", "u", "U", "0",      "D800", "'",
                                  "e",  ";", "#", "x", "é", "110000", "H",    "/"};
    unsigned state = 1;
    for (int round = 0; round < 20000; ++round) {
        std::string text;
        for (int piece = 0; piece < 8; ++piece) {
            state = state * 1664525U + 1013904223U;
            text += pieces[(state >> 16) % 16];
        }
        if (!base::is_utf8(plain_text(text))) FAIL(text);
    }
    CHECK(plain_text("\\uD800") == "\uFFFD");
    CHECK(plain_text("&#9999999;") == "\uFFFD");
}
