#include "tune/tag.h"

#include <catch2/catch.hpp>

using tune::fold_tag;
using tune::read_tag;
using tune::TagFault;

TEST_CASE("tag: kept as written, but for needless blanks", "[tune][tag]") {
    CHECK(read_tag("wedding") == tune::Tag{"wedding", "wedding"});
    CHECK(read_tag("  Thursday \xC2\xA0 class ") == tune::Tag{"Thursday class", "thursday class"});
    CHECK(read_tag("Cafe\xCC\x81") == tune::Tag{"Caf\xC3\xA9", "cafe"});  // a letter and its accent become one
    CHECK(read_tag("set, slow").text == "set, slow");
}

TEST_CASE("tag: compared without case and accents, but with its signs", "[tune][tag]") {
    CHECK(fold_tag("WEDDING") == fold_tag("wedding"));
    CHECK(fold_tag("F\xC3\x8AT"
                   "E") == fold_tag("fete"));
    CHECK(fold_tag("last  night") == fold_tag("Last night"));
    CHECK(fold_tag("in F#") != fold_tag("in F"));
    CHECK(fold_tag("grade-3") != fold_tag("grade 3"));
    CHECK(fold_tag("The Hall") != fold_tag("hall"));
    CHECK(fold_tag(" ").empty());
}

TEST_CASE("tag: what is none is refused in a sentence", "[tune][tag]") {
    for (const char* text : {"", "   ", "\xC2\xA0", "\xCC\x81"}) {
        CAPTURE(text);
        CHECK_THROWS_WITH(read_tag(text), "a tag cannot be empty");
    }
    for (const char* text : {"a\nb", "a\tb", "\x1B[31mred", "\x7F", "\xC2\x85",
                             "\xE2\x80\xAE"
                             "back"}) {
        CAPTURE(text);
        CHECK_THROWS_WITH(read_tag(text), "a tag cannot have control characters in it");
    }
    CHECK_THROWS_WITH(read_tag("caf\xE9"), "a tag must be UTF-8");
    CHECK_THROWS_AS(read_tag("\xC3"), TagFault);
}

TEST_CASE("tag: at most 100 characters, not bytes", "[tune][tag]") {
    std::string accented;
    for (int i = 0; i < 100; ++i) accented += "\xC3\xA9";
    CHECK(read_tag(accented).text == accented);
    CHECK(read_tag(std::string(100, 'a') + "   ").text.size() == 100);
    CHECK_THROWS_WITH(read_tag(std::string(101, 'a')), "a tag has at most 100 characters, not 101");
    CHECK_THROWS_WITH(read_tag(accented + "x"), Catch::Contains("not 101"));
}
