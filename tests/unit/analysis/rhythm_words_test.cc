#include "analysis/rhythm_words.h"

#include <catch2/catch.hpp>
#include <tuple>

using analysis::rhythm_token;

namespace {

struct WordCase {
    const char* written;
    const char* token;
};

music::Meter meter(int beats, int unit) {
    return {music::Meter::Kind::fraction, static_cast<std::uint16_t>(beats), static_cast<std::uint16_t>(unit)};
}

}  // namespace

TEST_CASE("rhythm: plurals, capitals and blanks lead to one token", "[analysis][rhythm]") {
    // Source: common practice, no source.
    for (const WordCase& one : {WordCase{"jig", "jig"},
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
                                {"three-two", "triple hornpipe"},
                                {"Slow", "air"},
                                {"slow reel", "reel"},
                                {"Slow Marches", "march"},
                                {"Lament", "air"}}) {
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

TEST_CASE("rhythm: a kind suits the meters it is written in", "[analysis][rhythm]") {
    // Source: common practice, no source.
    CHECK(analysis::rhythm_suits("reel", meter(4, 4)));
    CHECK(analysis::rhythm_suits("reel", meter(2, 2)));
    CHECK(analysis::rhythm_suits("reel", meter(2, 4)));
    CHECK_FALSE(analysis::rhythm_suits("reel", meter(6, 8)));
    CHECK_FALSE(analysis::rhythm_suits("reel", meter(3, 4)));
    CHECK(analysis::rhythm_suits("jig", meter(6, 8)));
    CHECK(analysis::rhythm_suits("jig", meter(6, 4)));
    CHECK(analysis::rhythm_suits("jig", meter(12, 8)));
    CHECK_FALSE(analysis::rhythm_suits("jig", meter(9, 8)));  // there it is a slip jig: rhythm_in_meter
    CHECK_FALSE(analysis::rhythm_suits("jig", meter(4, 4)));
    CHECK_FALSE(analysis::rhythm_suits("single jig", meter(4, 4)));
    CHECK(analysis::rhythm_suits("slip jig", meter(9, 8)));
    CHECK_FALSE(analysis::rhythm_suits("slip jig", meter(6, 8)));
    CHECK_FALSE(analysis::rhythm_suits("hop jig", meter(6, 8)));
    CHECK(analysis::rhythm_suits("slide", meter(12, 8)));
    CHECK(analysis::rhythm_suits("slide", meter(6, 8)));
    CHECK_FALSE(analysis::rhythm_suits("slide", meter(9, 8)));
    CHECK(analysis::rhythm_suits("polka", meter(2, 4)));
    CHECK(analysis::rhythm_suits("polka", meter(4, 4)));
    CHECK_FALSE(analysis::rhythm_suits("polka", meter(6, 8)));
    CHECK(analysis::rhythm_suits("hornpipe", meter(3, 2)));
    CHECK(analysis::rhythm_suits("hornpipe", meter(2, 4)));
    CHECK_FALSE(analysis::rhythm_suits("hornpipe", meter(3, 4)));
    CHECK(analysis::rhythm_suits("triple hornpipe", meter(3, 2)));
    CHECK_FALSE(analysis::rhythm_suits("triple hornpipe", meter(4, 4)));
    CHECK(analysis::rhythm_suits("waltz", meter(3, 4)));
    CHECK(analysis::rhythm_suits("waltz", meter(3, 8)));
    CHECK_FALSE(analysis::rhythm_suits("mazurka", meter(4, 4)));
    for (const char* dance : {"barndance", "highland fling", "schottische", "strathspey"}) {
        CAPTURE(dance);
        CHECK(analysis::rhythm_suits(dance, meter(4, 4)));
        CHECK(analysis::rhythm_suits(dance, meter(2, 4)));
        CHECK_FALSE(analysis::rhythm_suits(dance, meter(6, 8)));
    }
    for (const char* kind : {"march", "rant", "air", "set dance", "planxty", "boathouse shuffle", ""}) {
        CAPTURE(kind);
        CHECK(analysis::rhythm_suits(kind, meter(7, 8)));
    }
    CHECK(analysis::rhythm_suits("reel", music::Meter{}));
}

TEST_CASE("rhythm: a kind may mean another in its meter", "[analysis][rhythm]") {
    CHECK(analysis::rhythm_in_meter("jig", meter(9, 8)) == "slip jig");
    CHECK(analysis::rhythm_in_meter("jig", meter(6, 8)) == "jig");
    CHECK(analysis::rhythm_in_meter("hop jig", meter(9, 8)) == "hop jig");
    CHECK(analysis::rhythm_in_meter("jig", music::Meter{}) == "jig");
}

TEST_CASE("rhythm: meters are one family whatever note counts", "[analysis][rhythm]") {
    using analysis::MeterFamily;
    for (const auto& [beats, unit, family] : {std::tuple(6, 8, MeterFamily::six),
                                              {6, 4, MeterFamily::six},
                                              {6, 16, MeterFamily::six},
                                              {9, 8, MeterFamily::nine},
                                              {12, 8, MeterFamily::twelve},
                                              {3, 4, MeterFamily::three},
                                              {3, 8, MeterFamily::three},
                                              {3, 2, MeterFamily::three_minims},
                                              {4, 4, MeterFamily::duple},
                                              {2, 2, MeterFamily::duple},
                                              {4, 2, MeterFamily::duple},
                                              {2, 4, MeterFamily::short_duple},
                                              {4, 8, MeterFamily::short_duple},
                                              {2, 8, MeterFamily::short_duple},
                                              {5, 4, MeterFamily::other},
                                              {7, 8, MeterFamily::other},
                                              {3, 16, MeterFamily::other},
                                              {6, 2, MeterFamily::other}}) {
        CAPTURE(beats, unit);
        CHECK(analysis::meter_family(meter(beats, unit)) == family);
    }
    CHECK(analysis::meter_family(music::Meter{}) == MeterFamily::other);
}
