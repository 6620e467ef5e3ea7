#include "abc/sounds_moved.h"

#include <catch2/catch.hpp>
#include <string>

#include "written.h"

namespace {

const std::string kTune = "|:C2E2 G2c2|e4-e4|1 d4B4:|2 c8|]";

tune::Setting tune_read(const std::string& music, const std::string& fields = "", const std::string& key = "C") {
    return written::AbcFile(written::tune_of(music, fields, key)).only();
}

}  // namespace

TEST_CASE("sounds moved: the same tune so many semitones higher, however it is spelled", "[abc][sounds_moved]") {
    CHECK(abc::sounds_moved(tune_read(kTune), tune_read(kTune), 0));
    const std::string higher = "|:D2F2 A2d2|f4-f4|1 e4c4:|2 d8|]";
    CHECK(abc::sounds_moved(tune_read(kTune), tune_read(higher, "", "D"), 2));
    CHECK_FALSE(abc::sounds_moved(tune_read(kTune), tune_read(higher, "", "D"), 1));
    CHECK_FALSE(abc::sounds_moved(tune_read(kTune), tune_read(higher, "", "D"), -2));
    CHECK_FALSE(abc::sounds_moved(tune_read(kTune), tune_read(higher, "", "Dm"), 2));
}

TEST_CASE("sounds moved: one thing changed is another tune", "[abc][sounds_moved]") {
    for (const char* other : {"|:C2E2 G2d2|e4-e4|1 d4B4:|2 c8|]",     // a note
                              "|:C2E2 G3c|e4-e4|1 d4B4:|2 c8|]",      // a length
                              "|:C2E2 G2c2|e4e4|1 d4B4:|2 c8|]",      // a tie
                              "C2E2 G2c2|e4-e4|1 d4B4:|2 c8|]",       // a repeat
                              "|:C2E2|G2c2|e4-e4|1 d4B4:|2 c8|]",     // a bar line
                              "|:C2E2 G2c2|e4-e4|1 d4B4:|2,3 c8|]",   // an ending
                              "|:[CE]2E2 G2c2|e4-e4|1 d4B4:|2 c8|]",  // a chord
                              "|:C2E2 G2c2|e4-e4|1 d4B4:|2 c8|]c8|",  // more music
                              "|:C2E2 G2c2|e4-e4|1 d4B4:|2 c4|]"}) {
        CAPTURE(other);
        CHECK_FALSE(abc::sounds_moved(tune_read(kTune), tune_read(other), 0));
    }
}

TEST_CASE("sounds moved: header, key and other voices count", "[abc][sounds_moved]") {
    CHECK_FALSE(abc::sounds_moved(tune_read(kTune), tune_read(kTune, "T:Another name\n"), 0));
    CHECK_FALSE(abc::sounds_moved(tune_read(kTune), tune_read(kTune, "R:reel\n"), 0));
    CHECK_FALSE(abc::sounds_moved(tune_read(kTune), tune_read(kTune, "M:2/2\n"), 0));
    CHECK_FALSE(abc::sounds_moved(tune_read(kTune), tune_read(kTune, "", "Am"), 0));    // another home note
    CHECK_FALSE(abc::sounds_moved(tune_read("C8|"), tune_read("C8|", "", "Cmix"), 0));  // another signature
    const std::string two = "V:1\nC8|\nV:2\nE8|";
    CHECK(abc::sounds_moved(tune_read(two), tune_read(two), 0));
    CHECK_FALSE(abc::sounds_moved(tune_read(two), tune_read("V:1\nC8|\nV:2\nF8|"), 0));
    CHECK_FALSE(abc::sounds_moved(tune_read(two), tune_read("V:1\nC8|"), 0));
}
