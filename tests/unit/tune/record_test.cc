#include "tune/record.h"

#include <catch2/catch.hpp>

namespace {

int fifths_beside(const char* key_stated) {
    tune::TuneRecord record;
    record.key_stated = key_stated;
    return tune::spelling_fifths(record);
}

}  // namespace

TEST_CASE("record: notes are spelled beside the signature the file states, in minor with a sharp more",
          "[tune][record]") {
    CHECK(fifths_beside("D major") == 2);
    CHECK(fifths_beside("A dorian") == 1);
    CHECK(fifths_beside("Eb aeolian") == -5);  // its seventh, raised, is D and not Ebb
    CHECK(fifths_beside("highland-pipes") == 2);
}

TEST_CASE("record: a key in force at the first note goes before the one stated first", "[tune][record]") {
    tune::TuneRecord record;
    record.key_stated = "C major";
    record.key_in_force = "E minor";
    CHECK(tune::spelling_fifths(record) == 2);  // its seventh, raised, is D# and not Eb
}

TEST_CASE("record: without a stated key, or with accidentals of its own, notes are spelled plainly", "[tune][record]") {
    CHECK(fifths_beside("none") == 0);
    CHECK(fifths_beside("A explicit") == 0);
    CHECK(fifths_beside("") == 0);
}

TEST_CASE("record: a signature beyond seven signs is spelled beside seven", "[tune][record]") {
    CHECK(fifths_beside("D# lydian") == 7);
    CHECK(fifths_beside("Fb phrygian") == -7);
}

TEST_CASE("record: where the meter contradicts R:, the meter says how it is danced", "[tune][record]") {
    using tune::Basis;
    const auto danced = [](const char* rhythm, Basis basis, std::vector<std::string> possible) {
        tune::TuneRecord record;
        record.rhythm = {rhythm, basis};
        record.rhythm_possible = std::move(possible);
        return *tune::danced_rhythm(record);
    };
    CHECK(danced("jig", Basis::stated, {}) == tune::Finding<std::string>{"jig", Basis::stated});
    CHECK(danced("jig", Basis::stated, {"reel", "hornpipe"}) == tune::Finding<std::string>{"reel", Basis::computed});
    CHECK(danced("reel", Basis::computed, {"hornpipe"}) == tune::Finding<std::string>{"reel", Basis::computed});
    CHECK(danced("jig", Basis::said, {"reel"}) == tune::Finding<std::string>{"jig", Basis::said});
    CHECK_FALSE(tune::danced_rhythm({}));
}
