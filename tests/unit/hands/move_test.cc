#include "hands/move.h"

#include <catch2/catch.hpp>

#include "analysis/analyse.h"
#include "instruments/instrument_file.h"
#include "music/note_expression.h"
#include "unit/hands/melodies.h"

namespace {

// D4 to D5 of D major, the easier the nearer to D4; most tunes on it are in D major.
instruments::Instrument pipe() {
    return instruments::read_instrument(R"(
title = "Pipe"
family = "pipe"
source = "made up"
technique = "holes"
keys = ["D major"]
columns = ["note", "fingering", "grade"]
ways = [ ["D4", "6", 1], ["E4", "5", 1], ["F#4", "4", 1], ["G4", "3", 1], ["A4", "2", 2], ["B4", "1", 3], ["C#5", "0", 4], ["D5", "x", 5] ]
)",
                                        "pipe", "pipe.toml", {});
}

tune::TuneFacts facts_of(const std::string& music, const std::string& key) {
    return analysis::analyse(hands_test::settings_of("X:1\nT:t\nM:4/4\nL:1/8\nK:" + key + "\n" + music + "\n").front());
}

}  // namespace

TEST_CASE("the best move is to the key that lies on the instrument", "[hands]") {
    const auto facts = facts_of("C2E2 G2FD|CDEF E2C2|", "C");
    REQUIRE(facts.key);
    const auto moves = hands::rank_moves(facts.uses, facts.key->candidates.front(), pipe());
    REQUIRE(moves.size() == 25);
    CHECK(moves[0].semitones == 2);
    CHECK(music::to_string(*moves[0].key) == "D major");
    CHECK(moves[0].is_customary);
    CHECK(moves[0].missing == 0);
    CHECK(moves[0].hardest_grade == 2);
    CHECK(moves[0].mean_grade == Approx(12 / 11.0));
    // G major from G4 lacks nothing either, but lies higher.
    CHECK(moves[1].missing >= moves[0].missing);
    for (std::size_t at = 1; at < moves.size(); ++at) CHECK(moves[at - 1].missing <= moves[at].missing);
}

TEST_CASE("a tune that lies well stays where it is", "[hands]") {
    const auto facts = facts_of("D2F2 A2GE|DEFG F2D2|", "D");
    const auto moves = hands::rank_moves(facts.uses, facts.key->candidates.front(), pipe());
    CHECK(moves[0].semitones == 0);
    CHECK(music::to_string(*moves[0].key) == "D major");
}

TEST_CASE("a tune without a key or a note can be asked too", "[hands]") {
    const auto moves = hands::rank_moves({}, std::nullopt, pipe());
    CHECK(moves[0].semitones == 0);
    CHECK_FALSE(moves[0].key);
    CHECK(moves[0].mean_grade == 0);
}

TEST_CASE("whether any move fits, of note sets", "[hands]") {
    const music::NoteSet have = pipe().note_set();
    CHECK(hands::fits_moved(music::read_notes("C:major C4..G4"), have));
    CHECK(hands::fits_moved(music::read_notes("C:major C5..C6"), have));
    CHECK_FALSE(hands::fits_moved(music::read_notes("C:major C4..D5"), have));
    CHECK_FALSE(hands::fits_moved(music::read_notes("C4 C#4 D4"), have));
    CHECK(hands::fits_moved(music::read_notes("F#4 C#5"), have));
}
