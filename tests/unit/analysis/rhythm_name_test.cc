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

std::string inferred(const std::string& meter, const std::string& music) {
    const AbcFile file(tune_of(music, "M:" + meter + "\n"));
    return analysis::infer_rhythm(file.only().meter, file.only().melody).value_or("(none)");
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
                            {"three-two", "triple hornpipe"}}) {
        CAPTURE(one.written);
        CHECK(rhythm_token(one.written) == one.token);
    }
}

TEST_CASE("rhythm: a kind without a word of ours keeps its own", "[analysis][rhythm]") {
    CHECK(rhythm_token("Boathouse Shuffle") == "boathouse shuffle");
    CHECK(rhythm_token("Bourrée") == "bourree");
    CHECK(rhythm_token("bourrées") == "bourree");
    CHECK(rhythm_token("") == "");
    CHECK(rhythm_token("  ") == "");
    CHECK(rhythm_token("gas") == "gas");
    CHECK(rhythm_token("pass") == "pass");
}

TEST_CASE("rhythm: a token is its own token", "[analysis][rhythm]") {
    for (const char* token : {"jig", "slip jig", "hop jig", "single jig", "reel", "air", "set dance", "barndance", "highland fling", "schottische", "march",
                              "triple hornpipe", "waltz", "hornpipe", "polka", "slide", "strathspey", "mazurka"})
        CHECK(rhythm_token(token) == token);
}

TEST_CASE("rhythm: without R: the meter and the pattern of lengths speak", "[analysis][rhythm]") {
    // Source: common practice, no source.
    CHECK(inferred("6/8", "GAB cde|dcB AGF|G3 G3|") == "jig");
    CHECK(inferred("6/8", "G2B d2B|c2A F2A|G2B d2B|A3 G3|") == "single jig");
    CHECK(inferred("9/8", "GAB cde dcB|GAB cde f3|") == "slip jig");
    CHECK(inferred("9/8", "G2B d2B c2A|G2B d2B A2F|") == "hop jig");
    CHECK(inferred("12/8", "GAB cde dcB AGF|") == "slide");
    CHECK(inferred("2/4", "GABc d2d2|edcB A2A2|") == "polka");
    CHECK(inferred("2/4", "G>A B>c d2|e>d c>B A2|") == "march");
    CHECK(inferred("3/4", "G2A2B2|c4B2|") == "waltz");
    CHECK(inferred("3/2", "G4A2B2c2B2|") == "triple hornpipe");
    CHECK(inferred("4/4", "GABc dcBA|GABc d2d2|") == "reel");
    CHECK(inferred("C|", "GABc dcBA|GABc d2d2|") == "reel");
    CHECK(inferred("C", "G>AB>c d>cB>A|G>AB>c d2d2|") == "hornpipe");
    CHECK(inferred("C", "G<A B>c d<c B>A|G<A B>c d<c B>A|") == "strathspey");
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
