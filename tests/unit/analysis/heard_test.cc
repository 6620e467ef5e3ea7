#include "analysis/heard.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

using analysis::HeardFault;
using analysis::read_heard;

namespace {

std::string read(const std::string& text) {
    std::string shown;
    for (const std::uint8_t pitch_class : read_heard(text).pitch_classes)
        shown += (shown.empty() ? "" : " ") + std::to_string(pitch_class);
    return shown;
}

std::string fault_of(const std::string& text) {
    try {
        read_heard(text);
    } catch (const HeardFault& fault) {
        return fault.what();
    }
    return "none";
}

}  // namespace

// The letters and signs of ABC standard 2.1, sections 4.1 and 4.2.
TEST_CASE("heard: notes as in ABC", "[analysis][heard]") {
    CHECK(read("C D E F G A B") == "0 2 4 5 7 9 11");
    CHECK(read("GABde") == "7 9 11 2 4");
    CHECK(read("^c _b =f g' D,") == "1 10 5 7 2");
    CHECK(read("^^c __b ^B _C") == "2 9 0 11");
    CHECK(read("G A|B c |") == "7 9 11 0");
    CHECK(read("GABb") == "7 9 11");  // b is B an octave up
}

TEST_CASE("heard: notes by name", "[analysis][heard]") {
    CHECK(read("G4 A4 F#5") == "7 9 6");
    CHECK(read("G4A4F#5") == "7 9 6");
    CHECK(read("F# G A") == "6 7 9");
    CHECK(read("Bb4 C5 D5") == "10 0 2");
    CHECK(read("g4 bb4 a4") == "7 10 9");
    CHECK(read("C## D Ebb4 F4 G") == "2 5 7");
}

TEST_CASE("heard: printed signs", "[analysis][heard]") {
    CHECK(read("F\xE2\x99\xAF G B\xE2\x99\xAD") == "6 7 10");
    CHECK(read("F\xE2\x99\xAE G B\xE2\x99\xAD") == "5 7 10");
}

TEST_CASE("heard: a small b is a flat only among names", "[analysis][heard]") {
    CHECK(read("Bb c d") == "11 0 2");  // B, then b
    CHECK(read("Bb3 c d") == "10 0 2");
    CHECK(read("Bb c F#") == "10 0 6");
}

TEST_CASE("heard: a note played again is one note", "[analysis][heard]") {
    CHECK(read("G G A A a B") == "7 9 11");
    CHECK(read("^c _d e f") == "1 4 5");
}

TEST_CASE("heard: what cannot be read is told with its column", "[analysis][heard]") {
    CHECK(fault_of("G A H c") == "column 5: `H` is no note. Notes are the letters A to G");
    CHECK(fault_of("G A ^ c") == "column 6: ` ` is no note for the sign before it. Notes are the letters A to G");
    CHECK(fault_of("G A B ^") == "column 8: the end is no note for the sign before it. Notes are the letters A to G");
    CHECK(fault_of("F\xE2\x99\xAF A x") == "column 6: `x` is no note. Notes are the letters A to G");
    CHECK(fault_of("F\xE2\x99\xAF \xC3\xA9") == "column 4: `\xC3\xA9` is no note. Notes are the letters A to G");
    CHECK(fault_of("G \xFF") == "column 1: notes must be UTF-8");
}

TEST_CASE("heard: three notes to sixty-four", "[analysis][heard]") {
    const std::string few =
        "at least 3 different notes in a row are needed; a repeated note, or one in another octave, counts once";
    CHECK(fault_of("") == "column 1: " + few);
    CHECK(fault_of("G A") == "column 4: " + few);
    CHECK(fault_of("G G g A") == "column 8: " + few);
    std::string most;
    for (int pair = 0; pair < 32; ++pair) most += "GA";
    CHECK(read_heard(most).pitch_classes.size() == 64);
    CHECK(fault_of(most + "B") == "column 65: at most 64 notes can be looked for");
    CHECK(fault_of(std::string(1000000, 'G')) == "column 65: at most 64 notes can be looked for");
}

TEST_CASE("heard: plain letters may be meant with the signs of a signature", "[analysis][heard]") {
    const auto readings = analysis::readings_of("D F A B");
    REQUIRE(readings.size() == 4);  // as written, with F sharp, with B flat, and with A flat too
    CHECK(readings[0].pitch_classes == std::vector<std::uint8_t>{2, 5, 9, 11});
    CHECK(readings[1].pitch_classes == std::vector<std::uint8_t>{2, 6, 9, 11});
    CHECK(readings[2].pitch_classes == std::vector<std::uint8_t>{2, 5, 9, 10});
    CHECK(analysis::readings_of("D ^F A B").size() == 1);
    CHECK(analysis::readings_of("D =F A B").size() == 1);
    CHECK(analysis::readings_of("D4 F4 Bb4 A4").size() == 1);
    CHECK(analysis::readings_of("C D F G").size() == 4);  // F sharp, then C sharp, then G sharp too; no flat among them
    CHECK_THROWS_AS(analysis::readings_of("G A"), analysis::HeardFault);
}
