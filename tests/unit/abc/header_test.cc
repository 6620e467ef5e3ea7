#include "abc/header.h"

#include <catch2/catch.hpp>
#include <string>

#include "written.h"

using written::AbcFile;

TEST_CASE("header: titles add up, the first is the title", "[abc][header]") {
    // Source: ABC standard 2.1, sections 3 and 3.1.2.
    const AbcFile file("X:1\nT:Rain on the Slipway\nT:Wet Stones\nT:\nK:C\nCDE\n");
    CHECK(file.only().titles == std::vector<std::string>{"Rain on the Slipway", "Wet Stones"});
}

TEST_CASE("header: a T: in the body names a section, not the tune", "[abc][header]") {
    const AbcFile file("X:1\nT:Rain\nK:C\nCDE\nT:second half\nDEF\n");
    CHECK(file.only().titles == std::vector<std::string>{"Rain"});
}

TEST_CASE("header: of instruction fields the last one holds", "[abc][header]") {
    // Source: ABC standard 2.1, section 3.
    const AbcFile file("X:1\nT:t\nM:4/4\nM:6/8\nL:1/4\nL:1/16\nR:reel\nR:jig\nK:C\nC\n");
    CHECK(music::to_string(file.only().meter) == "6/8");
    CHECK(file.only().unit == music::Duration(1, 16));
    CHECK(file.only().rhythm == "jig");
}

TEST_CASE("header: with several meters the last one gives the default unit", "[abc][header]") {
    const AbcFile file("X:1\nT:t\nM:4/4\nM:2/4\nK:C\nC\n");
    CHECK(file.only().unit == music::Duration(1, 16));
}

TEST_CASE("header: the file header gives defaults, a tune overrides them for itself", "[abc][header]") {
    // Source: ABC standard 2.1, section 2.2.2.
    const AbcFile file(
        "M:6/8\nL:1/4\nR:jig\nC:nobody\n\nX:1\nT:a\nK:C\nC\n\nX:2\nT:b\nM:4/4\nL:1/"
        "8\nR:reel\nK:C\nC\n\nX:3\nT:c\nK:C\nC\n");
    REQUIRE(file.settings().size() == 3);
    CHECK(file.findings() == "");
    for (const std::size_t tune : {0U, 2U}) {
        CHECK(music::to_string(file.settings()[tune].meter) == "6/8");
        CHECK(file.settings()[tune].meter_is_stated);
        CHECK(file.settings()[tune].unit == music::Duration(1, 4));
        CHECK(file.settings()[tune].rhythm == "jig");
        CHECK(file.settings()[tune].texts == std::vector<tune::HeaderText>{{'C', "nobody"}});
    }
    CHECK(music::to_string(file.settings()[1].meter) == "4/4");
    CHECK(file.settings()[1].unit == music::Duration(1, 8));
    CHECK(file.settings()[1].rhythm == "reel");
}

TEST_CASE("header: a unit of the file header counts against any tune's meter", "[abc][header]") {
    const AbcFile file("L:1/8\n\nX:1\nT:a\nM:2/4\nK:C\nC\n");
    CHECK(file.only().unit == music::Duration(1, 8));
}

TEST_CASE("header: macros and symbols of the file header reach every tune", "[abc][header]") {
    const AbcFile file("m:~G2=GAG\nU:W=!trill!\n\nX:1\nT:a\nL:1/8\nK:C\n~G2 WA|\n\nX:2\nT:b\nL:1/8\nK:C\n~G2 WA|\n");
    CHECK(file.findings() == "");
    for (const tune::Setting& setting : file.settings()) CHECK(setting.melody.heads.size() == 4);
}

TEST_CASE("header: what is carried keeps its letter and order", "[abc][header]") {
    const AbcFile file(
        "X:1\nT:t\nC:nobody\nO:Here; There\nS:the boathouse\nZ:by hand\nN:first\nN:second\nH:once\n+:upon a "
        "time\nD:\nK:C\nC\n");
    const std::vector<tune::HeaderText> expected{{'C', "nobody"},          {'O', "Here; There"}, {'S', "the boathouse"},
                                                 {'Z', "by hand"},         {'N', "first"},       {'N', "second"},
                                                 {'H', "once upon a time"}};
    CHECK(file.only().texts == expected);
}

TEST_CASE("header: text escapes are resolved in titles, rhythm and texts", "[abc][header]") {
    const AbcFile file("X:1\nT:Caf\\'e &amp; $1Quay$0\nR:m&uuml;hle\nS:50\\% rain\nK:C\nC\n");
    CHECK(file.only().titles == std::vector<std::string>{"Café & Quay"});
    CHECK(file.only().rhythm == "mühle");
    CHECK(file.only().texts == std::vector<tune::HeaderText>{{'S', "50% rain"}});
}

TEST_CASE("header: the number is its digits without leading zeros", "[abc][header]") {
    const auto number_of = [](const std::string& field) {
        const AbcFile file(field + "\nT:t\nK:C\nC\n");
        return file.only().number.value_or("(none)") + " " + file.findings();
    };
    CHECK(number_of("X:1") == "1 ");
    CHECK(number_of("X: 042 ") == "42 ");
    CHECK(number_of("X:0") == "0 ");
    CHECK(number_of("X:7b") == "7 abc-bad-number 1:1");
    CHECK(number_of("X:") == "(none) abc-no-number 1:1");
    CHECK(number_of("X:one") == "(none) abc-bad-number 1:1, abc-no-number 1:1");
}

TEST_CASE("header: no meter is free and assumed, and M:none is free and stated", "[abc][header]") {
    const AbcFile without("X:1\nT:t\nK:C\nC\n");
    CHECK(without.only().meter.is_free());
    CHECK_FALSE(without.only().meter_is_stated);
    CHECK(without.only().unit == music::Duration(1, 8));
    const AbcFile none("X:1\nT:t\nM:none\nK:C\nC\n");
    CHECK(none.only().meter.is_free());
    CHECK(none.only().meter_is_stated);
}

TEST_CASE("header: fields of a tune have no place in a file header", "[abc][header]") {
    // Source: ABC standard 2.1, section 3 (the table of fields) and 3.1.14.
    const AbcFile file("M:6/8\nP:AB\n\nX:1\nT:t\nK:C\nC\n");
    CHECK(file.findings() == "abc-stray-field 2:1");
    CHECK_FALSE(file.only().part_order);
}

TEST_CASE("header: the order of parts is kept as written", "[abc][header]") {
    const AbcFile file("X:1\nT:t\nP:((AB)3.C)2\nK:C\nP:A\nC|\nP:B\nD|\n");
    CHECK(file.only().part_order == "((AB)3.C)2");
    REQUIRE(file.only().melody.parts.size() == 2);
    CHECK(file.only().melody.parts[1].label == "B");
    CHECK(file.only().melody.parts[1].before_sound == 1);
}

TEST_CASE("voice field: the first word is the name, quoted properties may hold blanks", "[abc][header]") {
    const auto voice = abc::read_voice_field("T1 name=\"Low voice octave=3\" clef=treble-8 octave=1 snm=L");
    REQUIRE(voice);
    CHECK(voice->id == "T1");
    CHECK(voice->shift.clef_octaves == -1);
    CHECK(voice->shift.octaves == 1);
    CHECK_FALSE(voice->shift.semitones);
    CHECK(abc::read_voice_field("2")->id == "2");
    CHECK_FALSE(abc::read_voice_field(""));
    CHECK_FALSE(abc::read_voice_field("   "));
}

TEST_CASE("symbols: the standard's shorthands are known, others when U: says so", "[abc][header]") {
    // Source: ABC standard 2.1, section 4.16.
    const abc::Header header;
    for (const char letter : std::string("~HLMOPSTuv")) CHECK(header.knows_symbol(letter));
    for (const char letter : std::string("IJKNQRUVWhijklmnopqrstw")) CHECK_FALSE(header.knows_symbol(letter));
    CHECK(AbcFile("X:1\nT:t\nU:q=!trill!\nK:C\nqA\n").findings() == "");
    CHECK(AbcFile("X:1\nT:t\nK:C\nqA\n").findings() == "abc-unknown-letter 4:1");
    CHECK(AbcFile("X:1\nT:t\nU:T=!nil!\nK:C\nTA\n").findings() == "abc-unknown-letter 5:1");
    CHECK(AbcFile("X:1\nT:t\nU: T = !none!\nK:C\nTA\n").findings() == "abc-unknown-letter 5:1");
    CHECK(AbcFile("X:1\nT:t\nU:C=!trill!\nK:C\nCA\n").findings() == "abc-bad-symbol 3:1");
}
