#include "analysis/rhythm_name.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"

using analysis::rhythm_token;
using written::AbcFile;
using written::tune_of;

namespace {

struct Case {
    const char* written;
    const char* token;
};

// `jig`, `single jig or slide`; `(none)` where nothing is inferred.
std::string inferred(const std::string& meter, const std::string& music) {
    const AbcFile file(tune_of(music, "M:" + meter + "\n"));
    const auto found = analysis::infer_rhythm(file.only().meter, file.only().melody);
    if (!found) return "(none)";
    std::string text = found->token;
    for (const std::string& other : found->also_possible) text += " or " + other;
    return text;
}

music::Meter meter(int beats, int unit) {
    return {music::Meter::Kind::fraction, static_cast<std::uint16_t>(beats), static_cast<std::uint16_t>(unit)};
}

}  // namespace

TEST_CASE("rhythm: plurals, capitals and blanks lead to one token", "[analysis][rhythm]") {
    // Source: common practice, no source.
    for (const Case& one : {Case{"jig", "jig"},
                            {"Jigs", "jig"},
                            {"JIG", "jig"},
                            {" jig ", "jig"},
                            {"jig.", "jig"},
                            {"double jig", "jig"},
                            {"Double  Jigs", "jig"},
                            {"slip jig", "slip jig"},
                            {"Slip Jigs", "slip jig"},
                            {"slip_jig", "slip jig"},
                            {"slipjig", "slip jig"},
                            {"hop jig", "hop jig"},
                            {"single jig", "single jig"},
                            {"reel", "reel"},
                            {"Reels", "reel"},
                            {"hornpipes", "hornpipe"},
                            {"Polkas", "polka"},
                            {"waltzes", "waltz"},
                            {"Waltz", "waltz"},
                            {"Slow Air", "air"},
                            {"slow airs", "air"},
                            {"Airs", "air"},
                            {"lament", "air"},
                            {"Strathspeys", "strathspey"},
                            {"strathspey", "strathspey"},
                            {"marches", "march"},
                            {"Quick March", "march"},
                            {"barn dance", "barndance"},
                            {"Barndances", "barndance"},
                            {"Set Dance", "set dance"},
                            {"schottisches", "schottische"},
                            {"Schottische", "schottische"},
                            {"schottisch", "schottische"},
                            {"highland flings", "highland fling"},
                            {"Mazurkas", "mazurka"},
                            {"slides", "slide"},
                            {"Slip-Jig", "slip jig"},
                            {"hop-jig", "hop jig"},
                            {"REEL", "reel"},
                            {"reels (single)", "reel"},
                            {"Jigs (slip)", "slip jig"},
                            {"jig, double", "jig"},
                            {"Jig [Single]", "single jig"},
                            {"waltz (in three parts)", "waltz"},
                            {"barn-dances", "barndance"},
                            {"Horn-pipes", "hornpipe"},
                            {"strathpeys", "strathspey"},
                            {"shottische", "schottische"},
                            {"Mazourka", "mazurka"},
                            {"polcas", "polka"},
                            {"walz", "waltz"},
                            {"3/2 hornpipe", "triple hornpipe"},
                            {"three-two", "triple hornpipe"}}) {
        CAPTURE(one.written);
        CHECK(rhythm_token(one.written) == one.token);
    }
}

TEST_CASE("rhythm: a kind without a word of ours keeps its own", "[analysis][rhythm]") {
    CHECK(rhythm_token("Boathouse Shuffle") == "boathouse shuffle");
    CHECK(rhythm_token("Boathouse-Shuffles") == "boathouse-shuffle");
    CHECK(rhythm_token("shuffle (slow)") == "shuffle (slow)");
    CHECK(rhythm_token("(reel)") == "(reel)");
    CHECK(rhythm_token("DH") == "dh");  // an abbreviation is not guessed at
    CHECK(rhythm_token("Bourr\u00e9e") == "bourree");
    CHECK(rhythm_token("bourr\u00e9es") == "bourree");
    CHECK(rhythm_token("") == "");
    CHECK(rhythm_token("  ") == "");
    CHECK(rhythm_token("gas") == "gas");
    CHECK(rhythm_token("pass") == "pass");
}

TEST_CASE("rhythm: a token is its own token", "[analysis][rhythm]") {
    for (const char* token :
         {"jig",         "slip jig",  "hop jig",        "single jig",  "reel",       "air",
          "set dance",   "barndance", "highland fling", "schottische", "march",      "triple hornpipe",
          "waltz",       "hornpipe",  "polka",          "slide",       "strathspey", "mazurka",
          "varsovienne", "rant",      "planxty"})
        CHECK(rhythm_token(token) == token);
}

// Source of the rules below: common practice, no source.
TEST_CASE("rhythm: 6/8 goes by beats of three quavers against crotchet and quaver", "[analysis][rhythm]") {
    CHECK(inferred("6/8", "GAB cde|dcB AGF|G3 G3|") == "jig");
    CHECK(inferred("6/8", "G2B d2B|c2A F2A|G2B d2B|A3 G3|") == "single jig or slide");
    CHECK(inferred("6/8", "G2B dcB|c2A F2A|G2B dcB|A3 G3|") == "single jig or slide");
    CHECK(inferred("6/8", "G2B dcB|cBA F2A|G2B dcB|ABc G3|") == "jig");
    CHECK(inferred("6/8", "G>AB c>de|G>AB c3|") == "jig");
    CHECK(inferred("6/8", "G2B/B/ d2B/B/|GAB d2B|") == "single jig or slide");
    // Six quavers in a row are two beats of three, wherever a bar before ended.
    CHECK(inferred("6/8", "G|GAB d2B|cBA F2A|G5|") == "jig");
}

TEST_CASE("rhythm: 9/8 is a hop jig when over half the beats are crotchet and quaver", "[analysis][rhythm]") {
    CHECK(inferred("9/8", "GAB cde dcB|GAB cde f3|") == "slip jig");
    CHECK(inferred("9/8", "G2B d2B c2A|G2B d2B A2F|") == "hop jig or slip jig");
    CHECK(inferred("9/8", "G2B d2B cBA|G2B dcB A3|") == "slip jig");
    CHECK(inferred("9/8", "G2B d2B cBA|G2B d2B A3|") == "hop jig or slip jig");
}

TEST_CASE("rhythm: 2/4 is a polka, or a march by dotted pairs or four parts", "[analysis][rhythm]") {
    CHECK(inferred("2/4", "GABc|d2d2|edcB|A2A2|") == "polka");
    CHECK(inferred("2/4", "G>AB>c|d2d2|e>dc>B|A2A2|") == "march or polka");
    CHECK(inferred("2/4", "G>ABc|d2d2|edcB|A2A2|") == "polka");
    CHECK(inferred("2/4", "GABc|d2d2|GABc|d4:|edcB|A2A2|edcB|A4:|gfed|c2c2|gfed|c4:|abag|f2f2|abag|f4:|") ==
          "march or polka");
    CHECK(inferred("2/4", "GABc|d2d2|GABc|d4:|edcB|A2A2|edcB|A4:|gfed|c2c2|gfed|c4:|edcB|A2A2|edcB|A4:|") == "polka");
    CHECK(inferred("2/4", "G/A/B/c/ d/c/B/A/|G/A/B/c/ d2|") == "polka or reel or hornpipe");
    CHECK(inferred("2/4", "G/A/B/c/ cA|dc BA|") == "polka");
    CHECK(inferred("2/4", "GA/B/ cA|d2 d2|GA/B/ cA|G2G2|") == "polka");
}

TEST_CASE("rhythm: common time is told by pairs, snaps and how the parts end", "[analysis][rhythm]") {
    CHECK(inferred("4/4", "GABc dcBA|GABc d2d2|") == "reel or hornpipe");
    CHECK(inferred("C|", "GABc dcBA|GABc d2d2|") == "reel or hornpipe");
    CHECK(inferred("C", "G>AB>c d>cB>A|G>AB>c d2d2|") == "hornpipe");
    CHECK(inferred("C", "G>ABc d>cBA|GABc d2d2|") == "reel or hornpipe");
    CHECK(inferred("C", "(GA/)(3B2cA d>c B>A|G>A B>c d2d2|") == "hornpipe");
    CHECK(inferred("C", "G<A B>c d<c B>A|G<A B>c d<c B>A|") == "strathspey");
    CHECK(inferred("C", "G<AG<A G<AG<A|G<A G2 G2 G2|GABc dcBA|G6 z2|") ==
          "reel or hornpipe");  // no dotted pair beside the snaps
    CHECK(inferred("C", "G>AB>c d>cB>A|G>AB>c d<cB>A|G>AB>c d>cB>A|") == "hornpipe");  // one snap is none
    SECTION("a pick-up has no say") { CHECK(inferred("C", "G>AG>AG>A|GABc d4|") == "reel or hornpipe"); }
    SECTION("three crotchets, the middle one whole or divided") {
        CHECK(inferred("4/4", "GABc dcBA|GABc dcBA|G2 B2 G2:|GABc dcBA|G2 F2 G2:|") == "hornpipe");
        CHECK(inferred("4/4", "GABc dcBA|GABc dcBA|G2 BA G2:|") == "hornpipe");
        CHECK(inferred("4/4", "GABc dcBA|GABc dcBA|1GABc dcBA:|2G2 B2 G2|]") == "hornpipe");
        CHECK(inferred("4/4", "GABc dcBA|G2 B2 G2 AB|GABc d3:|") == "reel or hornpipe");
        CHECK(inferred("4/4", "GABc dcBA|GABc dcBA|GABG G2:|") == "reel or hornpipe");
        CHECK(inferred("4/4", "GABc dcBA|G2B2G2:|GABc dcBA|GABG G2:|GABc dcBA|GABG G2:|") == "reel or hornpipe");
    }
}

TEST_CASE("rhythm: meters of one kind", "[analysis][rhythm]") {
    CHECK(inferred("12/8", "GAB cde dcB AGF|") == "slide");
    CHECK(inferred("3/4", "G2A2B2|c4B2|") == "waltz or mazurka");
    CHECK(inferred("3/2", "G4A2B2c2B2|") == "triple hornpipe");
}

TEST_CASE("rhythm: no kind is made up for a free or an unusual meter", "[analysis][rhythm]") {
    CHECK(inferred("none", "GABc dcBA|") == "(none)");
    CHECK(inferred("5/4", "GABc dcBA c2|") == "(none)");
    CHECK(inferred("7/8", "GABc dcB|") == "(none)");
}

TEST_CASE("rhythm: what the file states goes before what is computed", "[analysis][rhythm]") {
    const AbcFile file(tune_of("GAB cde|", "M:6/8\n"));
    const auto stated = analysis::find_rhythm("Slow Air", file.only().meter, file.only().melody);
    REQUIRE(stated);
    CHECK(stated->value == "air");
    CHECK(stated->basis == tune::Basis::stated);
    const auto computed = analysis::find_rhythm(std::nullopt, file.only().meter, file.only().melody);
    REQUIRE(computed);
    CHECK(computed->value == "jig");
    CHECK(computed->basis == tune::Basis::computed);
    CHECK(analysis::find_rhythm("  ", file.only().meter, file.only().melody)->basis == tune::Basis::computed);
    const AbcFile silent(tune_of("z6|", "M:6/8\n"));
    CHECK_FALSE(analysis::find_rhythm(std::nullopt, silent.only().meter, silent.only().melody));
}

TEST_CASE("rhythm: a kind suits the meters it is written in", "[analysis][rhythm]") {
    // Source: common practice, no source.
    CHECK(analysis::rhythm_suits("reel", meter(4, 4)));
    CHECK(analysis::rhythm_suits("reel", meter(2, 2)));
    CHECK(analysis::rhythm_suits("reel", meter(2, 4)));
    CHECK_FALSE(analysis::rhythm_suits("reel", meter(6, 8)));
    CHECK_FALSE(analysis::rhythm_suits("reel", meter(3, 4)));
    CHECK(analysis::rhythm_suits("jig", meter(6, 8)));
    CHECK_FALSE(analysis::rhythm_suits("jig", meter(9, 8)));
    CHECK_FALSE(analysis::rhythm_suits("jig", meter(4, 4)));
    CHECK_FALSE(analysis::rhythm_suits("single jig", meter(4, 4)));
    CHECK(analysis::rhythm_suits("slip jig", meter(9, 8)));
    CHECK_FALSE(analysis::rhythm_suits("slip jig", meter(6, 8)));
    CHECK_FALSE(analysis::rhythm_suits("hop jig", meter(6, 8)));
    CHECK(analysis::rhythm_suits("slide", meter(12, 8)));
    CHECK(analysis::rhythm_suits("slide", meter(6, 8)));
    CHECK_FALSE(analysis::rhythm_suits("slide", meter(9, 8)));
    CHECK(analysis::rhythm_suits("polka", meter(2, 4)));
    CHECK_FALSE(analysis::rhythm_suits("polka", meter(4, 4)));
    CHECK(analysis::rhythm_suits("hornpipe", meter(3, 2)));
    CHECK(analysis::rhythm_suits("hornpipe", meter(2, 4)));
    CHECK_FALSE(analysis::rhythm_suits("hornpipe", meter(3, 4)));
    CHECK(analysis::rhythm_suits("triple hornpipe", meter(3, 2)));
    CHECK_FALSE(analysis::rhythm_suits("triple hornpipe", meter(4, 4)));
    CHECK(analysis::rhythm_suits("waltz", meter(3, 4)));
    CHECK_FALSE(analysis::rhythm_suits("mazurka", meter(4, 4)));
    for (const char* dance : {"barndance", "highland fling", "schottische", "strathspey", "rant"}) {
        CAPTURE(dance);
        CHECK(analysis::rhythm_suits(dance, meter(4, 4)));
        CHECK_FALSE(analysis::rhythm_suits(dance, meter(6, 8)));
    }
    for (const char* kind : {"march", "air", "set dance", "planxty", "boathouse shuffle", ""}) {
        CAPTURE(kind);
        CHECK(analysis::rhythm_suits(kind, meter(7, 8)));
    }
    CHECK(analysis::rhythm_suits("reel", music::Meter{}));
}
