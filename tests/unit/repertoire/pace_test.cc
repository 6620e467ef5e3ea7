#include "repertoire/pace.h"

#include <catch2/catch.hpp>

#include "analysis/rhythm_words.h"

using repertoire::pace_of;
using repertoire::PaceKind;

// Source: common practice, no source.
TEST_CASE("pace: a first year goes slower than a session, in every rhythm", "[repertoire][pace]") {
    for (const repertoire::Pace& pace : repertoire::paces()) {
        CAPTURE(pace.rhythm);
        CHECK(analysis::rhythm_token(pace.rhythm) == pace.rhythm);  // a word that tunes have
        CHECK(pace.easy_from < pace.easy_to);
        CHECK(pace.session_from < pace.session_to);
        CHECK(pace.easy_to <= pace.session_from);
        CHECK(pace.beats_a_minute(PaceKind::easy) < pace.beats_a_minute(PaceKind::session));
    }
}

// Source: common practice, no source.
TEST_CASE("pace: reels, jigs and polkas of a first year", "[repertoire][pace]") {
    CHECK(pace_of("reel")->beats_a_minute(PaceKind::easy) == 70);
    CHECK(pace_of("reel")->beats_a_minute(PaceKind::session) == 110);
    CHECK(pace_of("jig")->beats_a_minute(PaceKind::easy) == 75);
    CHECK(pace_of("strathspey")->beats_a_minute(PaceKind::session) == 60);
    CHECK_FALSE(pace_of("air"));
    CHECK_FALSE(pace_of("set dance"));
    CHECK_FALSE(pace_of(""));
}

TEST_CASE("pace: beats of a bar go with the meter it is written in", "[repertoire][pace]") {
    CHECK(repertoire::beats_in_bar(*pace_of("reel"), "4/4") == 2);
    CHECK(repertoire::beats_in_bar(*pace_of("reel"), "2/4") == 2);
    CHECK(repertoire::beats_in_bar(*pace_of("jig"), "6/8") == 2);
    CHECK(repertoire::beats_in_bar(*pace_of("slip jig"), "9/8") == 3);
    CHECK(repertoire::beats_in_bar(*pace_of("slide"), "12/8") == 4);
    CHECK(repertoire::beats_in_bar(*pace_of("slide"), "6/8") == 2);
    CHECK(repertoire::beats_in_bar(*pace_of("march"), "4/4") == 4);
    CHECK(repertoire::beats_in_bar(*pace_of("march"), "2/4") == 2);
    CHECK(repertoire::beats_in_bar(*pace_of("waltz"), "3/4") == 3);
}

TEST_CASE("pace: words for it", "[repertoire][pace]") {
    CHECK(repertoire::parse_pace_kind("easy") == PaceKind::easy);
    CHECK(repertoire::parse_pace_kind("session") == PaceKind::session);
    CHECK_FALSE(repertoire::parse_pace_kind("Easy"));
    CHECK_FALSE(repertoire::parse_pace_kind(""));
}
