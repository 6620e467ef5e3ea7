#include "analysis/rhythm_pattern.h"

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

const std::string kAnySingle = "single jig or jig or slide or march or air";
const std::string kDotted = "hornpipe or strathspey or highland fling or schottische or barndance or reel";

}  // namespace

// Source of the rules below: common practice, no source.
TEST_CASE("rhythm: 6/8 goes by beats of three quavers against crotchet and quaver", "[analysis][rhythm]") {
    CHECK(inferred("6/8", "GAB cde|dcB AGF|GAB cde|G3 GAB|") == "jig");
    CHECK(inferred("6/8", "GAB cde|dcB AGF|G3 G3|") == "jig or march");
    CHECK(inferred("6/8", "GAB c2e|dcB A2F|GAB dcB|A2F G3|") == "jig or single jig or slide or march");
    CHECK(inferred("6/8", "G2B d2B|c2A F2A|G2B d2B|A3 G3|") == kAnySingle);
    CHECK(inferred("6/8", "G2B d2B|c2A F2A|G2B dcB|A3 G3|") == kAnySingle);
    CHECK(inferred("6/8", "G2B dcB|c2A F2A|G2B dcB|A3 G3|") == "jig or single jig or slide or march or air");
    CHECK(inferred("6/8", "G2B/B/ d2B/B/|GAB d2B|") == kAnySingle);
    SECTION("a dotted lilt may be an air") {
        CHECK(inferred("6/8", "G>AB c>de|G>AB cde|GAB cde|GAB cde|") == "jig or air");
        CHECK(inferred("6/8", "G>AB cde|GAB cde|GAB cde|GAB cde|") == "jig");
    }
    // Six quavers in a row are two beats of three, wherever a bar before ended.
    CHECK(inferred("6/8", "G|GAB dcB|cBA F2A|GAB cde|fed cBA|G5|") == "jig");
}

TEST_CASE("rhythm: 9/8 is a hop jig when over two thirds of the beats are crotchet and quaver", "[analysis][rhythm]") {
    CHECK(inferred("9/8", "GAB cde dcB|GAB cde f3|") == "slip jig");
    CHECK(inferred("9/8", "G2B d2B c2A|G2B d2B A2F|") == "hop jig or slip jig");
    CHECK(inferred("9/8", "G2B d2B cBA|G2B dcB A3|") == "slip jig or hop jig");
    CHECK(inferred("9/8", "G2B d2B cBA|G2B d2B A3|") == "slip jig or hop jig");
    CHECK(inferred("9/8", "G2B d2B cBA|G2B d2B A2F|") == "hop jig or slip jig");
}

TEST_CASE("rhythm: 12/8 is a slide, and may be jigs two bars at a time", "[analysis][rhythm]") {
    CHECK(inferred("12/8", "G2B d2B c2A F2A|") == "slide or single jig");
    CHECK(inferred("12/8", "GAB cde dcB AGF|") == "slide or jig or single jig");
}

TEST_CASE("rhythm: 2/4 in quavers is a polka, or a march by dotted pairs or four parts", "[analysis][rhythm]") {
    CHECK(inferred("2/4", "GABc|d2d2|edcB|A2A2|") == "polka or march or air");
    CHECK(inferred("2/4", "G>AB>c|d2d2|e>dc>B|A2A2|") == "march or polka or air");
    CHECK(inferred("2/4", "G>ABc|d2d2|edcB|A2A2|") == "polka or march or air");
    CHECK(inferred("2/4", "GABc|d2d2|GABc|d4:|edcB|A2A2|edcB|A4:|gfed|c2c2|gfed|c4:|abag|f2f2|abag|f4:|") ==
          "march or polka or air");
    CHECK(inferred("2/4", "GABc|d2d2|GABc|d4:|edcB|A2A2|edcB|A4:|gfed|c2c2|gfed|c4:|edcB|A2A2|edcB|A4:|") ==
          "polka or march or air");
    CHECK(inferred("2/4", "G/A/B/c/ cA|dc B/A/G|") == "polka or march or reel or air");
}

TEST_CASE("rhythm: 2/4 in semiquavers is a reel or hornpipe at half the note values", "[analysis][rhythm]") {
    CHECK(inferred("2/4", "G/A/B/c/ d/c/B/A/|G/A/B/c/ d/c/B/A/|") == "reel or hornpipe or polka");
    CHECK(inferred("2/4", "G/A/B/c/ d/c/B/A/|G/A/B/c/ d/c/B/A/|G/A/B/c/ d/c/B/A/|GBG:|") ==
          "hornpipe or reel or polka");
    CHECK(inferred("2/4", "G/>A/B/>c/ d/>c/B/>A/|G/>A/B/>c/ d/>c/B/>A/|") == kDotted);
}

TEST_CASE("rhythm: common time is told by pairs, snaps and how the parts end", "[analysis][rhythm]") {
    CHECK(inferred("4/4", "GABc dcBA|GABc dcBA|") == "reel or hornpipe");
    CHECK(inferred("C|", "GABc dcBA|GABc dcBA|") == "reel or hornpipe");
    SECTION("crotchets among them may be a polka, a march or a song") {
        CHECK(inferred("C|", "G2Bc dcB2|GABc d2d2|") == "reel or hornpipe or polka or march or air");
        CHECK(inferred("C", "G2B2 d2B2|GABc dBd2|") == "march or polka or reel or barndance or air");
        CHECK(inferred("C", "G2B2 d2B2|G2B2 d4|") == "march or polka or barndance or air");
    }
    SECTION("dotted") {
        CHECK(inferred("C", "G>AB>c d>cB>A|G>AB>c d2d2|") == kDotted);
        CHECK(inferred("C", "G>AB>c d>cB>A|G>AB>c d>cB>A|G>AB>c d>cB>A|G2 B2 G2:|") ==
              "hornpipe or barndance or schottische");
        CHECK(inferred("C", "(GA/)(3B2cA d>c B>A|G>A B>c d2d2|") == kDotted);
        CHECK(inferred("C", "GABc d>cB>A|GABc dcBA|GABc dcBA|") == "reel or hornpipe");
        CHECK(inferred("C", "G>ABc d>cBA|GABc dcBA|") ==
              "reel or hornpipe or highland fling or barndance or schottische or strathspey");
    }
    SECTION("snaps") {
        CHECK(inferred("C", "G<A B>c d<c B>A|G<A B>c d<c B>A|") == "strathspey or highland fling or schottische");
        CHECK(inferred("C|", "G<A B>c d<c B>A|G<A B>c d<c B>A|") == "highland fling or strathspey or schottische");
        CHECK(inferred("C", "G>AB>c d>cB>A|G>AB>c d<cB>A|G>AB>c d>cB>A|") ==
              "strathspey or highland fling or schottische or hornpipe or barndance or reel");
        CHECK(inferred("C", "G>AB>c d>cB>A|G>AB>c d<cB>A|G>AB>c d>cB>A|G2 B2 G2:|") ==
              "hornpipe or barndance or schottische");
    }
    SECTION("a pick-up has no say") { CHECK(inferred("C", "G>AG>AG>A|GABc dcBA|") == "reel or hornpipe"); }
    SECTION("three crotchets, the middle one whole or divided") {
        const std::string run = "GABc dcBA|GABc dcBA|";
        CHECK(inferred("4/4", run + "G2 B2 G2:|" + run + "GABc G2 F2:|") == "hornpipe or reel");
        CHECK(inferred("4/4", run + "G2 BA G2:|") == "hornpipe or reel");
        CHECK(inferred("4/4", run + "1GABc dcBA:|2G2 B2 G2|]") == "hornpipe or reel");
        CHECK(inferred("4/4", run + "GABG G2:|") == "reel or hornpipe");
        CHECK(inferred("4/4", run + run + "G2 B2 G2 AB|GABc d3:|") == "reel or hornpipe");
        // Where crotchets stand everywhere they say nothing at the end.
        CHECK(inferred("4/4", "G2Bc d2BA|G2Bc dcBA|G2Bc dcBA|G2 B2 G2:|") ==
              "reel or hornpipe or polka or march or air");
    }
}

TEST_CASE("rhythm: three in a bar is a waltz, or a mazurka by the weight on the second beat", "[analysis][rhythm]") {
    CHECK(inferred("3/4", "G2A2B2|c4B2|G2A2B2|c4B2|") == "waltz or air");
    CHECK(inferred("3/4", "G>A B2 B2|c>d e2 e2|G>A B2 B2|c2 G4|") == "mazurka or varsovienne or waltz");
    CHECK(inferred("3/4", "GA B2 B2|c4 e2|GA Bc dB|c6|") == "waltz or mazurka or varsovienne or air");
    CHECK(inferred("3/8", "GAB|c2B|GAB|c2B|") == "waltz or air");
    CHECK(inferred("3/2", "G4A2B2c2B2|") == "triple hornpipe or hornpipe");
}

TEST_CASE("rhythm: the answer does not change with the note that counts", "[analysis][rhythm]") {
    CHECK(inferred("6/4", "G2A2B2 c2d2e2|d2c2B2 A2G2F2|") == inferred("6/8", "GAB cde|dcB AGF|"));
    CHECK(inferred("6/16", "G/A/B/ c/d/e/|d/c/B/ A/G/F/|") == inferred("6/8", "GAB cde|dcB AGF|"));
    CHECK(inferred("9/4", "G4B2 d4B2 c4A2|") == inferred("9/8", "G2B d2B c2A|"));
    CHECK(inferred("4/2", "G2A2B2c2 d2c2B2A2|") == inferred("4/4", "GABc dcBA|"));
}

TEST_CASE("rhythm: no kind is made up for a free or an unusual meter", "[analysis][rhythm]") {
    CHECK(inferred("none", "GABc dcBA|") == "(none)");
    CHECK(inferred("5/4", "GABc dcBA c2|") == "(none)");
    CHECK(inferred("7/8", "GABc dcB|") == "(none)");
}
