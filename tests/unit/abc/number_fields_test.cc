#include "abc/number_fields.h"

#include <catch2/catch.hpp>
#include <string>

using abc::read_meter;
using abc::read_unit;
using music::Duration;

namespace {

std::string meter_words(const char* text) {
    const auto meter = read_meter(text);
    return meter ? music::to_string(*meter) : "(no meter)";
}

std::string unit_words(const char* text) {
    const auto unit = read_unit(text);
    return unit ? music::to_string(*unit) : "(no unit)";
}

struct NumberCase {
    const char* written;
    const char* expected;
};

}  // namespace

TEST_CASE("meter field: fractions, C, C|, none and sums are read", "[abc][meter]") {
    // Source: ABC standard 2.1, section 3.1.6.
    for (const NumberCase& one : {NumberCase{"4/4", "4/4"},
                                  {"6/8", "6/8"},
                                  {"C", "4/4"},
                                  {"C|", "2/2"},
                                  {"C |", "2/2"},
                                  {"none", "none"},
                                  {"", "none"},
                                  {" 9/8 ", "9/8"},
                                  {"2+3+2/8", "7/8"},
                                  {"(2+3+2)/8", "7/8"},
                                  {"( 2 + 3 ) / 8", "5/8"},
                                  {"3/2", "3/2"},
                                  {"5/4", "5/4"}}) {
        CAPTURE(one.written);
        CHECK(meter_words(one.written) == one.expected);
    }
    CHECK(read_meter("C")->kind == music::Meter::Kind::common);
    CHECK(read_meter("C|")->kind == music::Meter::Kind::cut);
}

TEST_CASE("meter field: what gives no clear meter is refused", "[abc][meter]") {
    for (const char* text : {"3", "C3", "0/4", "4/0", "-3/4", "3/4/8", "waltz", "3/", "/4", "(2+3/8", "2+/8", "1000/4",
                             "4/1000", "c", "3/4 slow", "99999999999/4"}) {
        CAPTURE(text);
        CHECK_FALSE(read_meter(text));
    }
}

TEST_CASE("unit field: every length of the standard is read", "[abc][unit]") {
    // Source: ABC standard 2.1, section 3.1.7.
    for (const NumberCase& one : {NumberCase{"1", "1"},
                                  {"1/1", "1"},
                                  {"1/2", "1/2"},
                                  {"1/4", "1/4"},
                                  {"1/8", "1/8"},
                                  {"1/16", "1/16"},
                                  {"1/32", "1/32"},
                                  {"1/64", "1/64"},
                                  {"1/128", "1/128"},
                                  {"1/256", "1/256"},
                                  {"1/512", "1/512"},
                                  {" 1 / 8 ", "1/8"}}) {
        CAPTURE(one.written);
        CHECK(unit_words(one.written) == one.expected);
    }
    for (const char* text : {"", "quaver", "0", "1/0", "1/", "/8", "1/8 1/16", "-1/8", "1.5", "1/1024"}) {
        CAPTURE(text);
        CHECK_FALSE(read_unit(text));
    }
}

TEST_CASE("unit field: the default unit of each meter in use", "[abc][unit]") {
    // Source: ABC standard 2.1, section 3.1.7: a meter that is less than 0.75 as a decimal gives 1/16, others 1/8.
    for (const NumberCase& one : {NumberCase{"2/4", "1/16"},
                                  {"3/8", "1/16"},
                                  {"5/8", "1/16"},
                                  {"9/16", "1/16"},
                                  {"1/2", "1/16"},
                                  {"2+3/8", "1/16"},
                                  {"3/4", "1/8"},
                                  {"4/4", "1/8"},
                                  {"6/8", "1/8"},
                                  {"7/8", "1/8"},
                                  {"2+2+3/8", "1/8"},
                                  {"9/8", "1/8"},
                                  {"12/8", "1/8"},
                                  {"2/2", "1/8"},
                                  {"3/2", "1/8"},
                                  {"5/4", "1/8"},
                                  {"6/4", "1/8"},
                                  {"12/16", "1/8"},
                                  {"C", "1/8"},
                                  {"C|", "1/8"},
                                  {"none", "1/8"},
                                  {"", "1/8"}}) {
        CAPTURE(one.written);
        CHECK(music::to_string(abc::default_unit(*read_meter(one.written))) == one.expected);
    }
}

TEST_CASE("unit field: every meter's default unit follows its decimal", "[abc][unit]") {
    // Source: ABC standard 2.1, section 3.1.7. These fractions are exact in binary, so the decimal is too.
    for (int beats = 1; beats <= 64; ++beats)
        for (int unit = 1; unit <= 64; unit *= 2) {
            const auto meter = read_meter(std::to_string(beats) + "/" + std::to_string(unit));
            REQUIRE(meter);
            const double decimal = static_cast<double>(beats) / unit;
            CHECK(abc::default_unit(*meter) == (decimal < 0.75 ? Duration(1, 16) : Duration(1, 8)));
        }
}

TEST_CASE("tempo field: a beat and how many a minute, in words or both", "[abc][tempo]") {
    const auto words = [](const char* text) {
        const auto tempo = abc::read_tempo(text);
        if (!tempo) return std::string("(none)");
        return (tempo->beat ? music::to_string(*tempo->beat) : "-") + " " +
               (tempo->beats_a_minute ? std::to_string(*tempo->beats_a_minute) : "-") + " " + tempo->words;
    };
    // Source: ABC standard 2.1, section 3.1.8; 10.1 for the older forms.
    CHECK(words("1/4=120") == "1/4 120 ");
    CHECK(words("3/8 = 110") == "3/8 110 ");
    CHECK(words("1/4 3/8 1/4 3/8=40") == "5/4 40 ");
    CHECK(words("\"Slow\" 1/4=60") == "1/4 60 Slow");
    CHECK(words("1/4=60 \"Very slow\"") == "1/4 60 Very slow");
    CHECK(words("\"Andante\"") == "- - Andante");
    CHECK(words("120") == "- 120 ");
    CHECK(words("C=120") == "- 120 ");
    CHECK(words("C3=40") == "- 40 ");
    // Not by the standard: nothing is lost.
    CHECK(words("Slow") == "- - Slow");
    CHECK(words("1/4=fast") == "- - 1/4=fast");
    CHECK(words("\"Slow") == "- - Slow");
    CHECK(words("1/4=120-130") == "- - 1/4=120-130");
    CHECK(words("") == "(none)");
    CHECK(words("   ") == "(none)");
}
