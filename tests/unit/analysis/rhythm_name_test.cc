#include "analysis/rhythm_name.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"

using written::AbcFile;
using written::tune_of;

namespace {

// `jig`, `single jig or slide`; `(none)` where nothing is inferred.
std::string inferred(const std::string& meter, const std::string& music) {
    const AbcFile file(tune_of(music, "M:" + meter + "\n"));
    const auto found = analysis::infer_rhythm(file.only().meter, file.only().melody);
    if (!found) return "(none)";
    std::string text = found->token;
    for (const std::string& other : found->also_possible) text += " or " + other;
    return text;
}

}  // namespace

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
