#include "analysis/oddities.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"
#include "analysis/analyse.h"

using written::AbcFile;
using written::tune_of;

namespace {

// `bar-length warning 6:9 message advice`, one a line.
std::string told(const std::string& abc) {
    const AbcFile file(abc);
    std::string text;
    for (const tune::Oddity& oddity : analysis::find_oddities(file.only(), analysis::analyse(file.only()))) {
        const base::Place place = file.source().place_of(oddity.where.begin);
        text += std::string(tune::oddity_token(oddity.kind)) + " " +
                std::string(base::severity_token(oddity.severity)) + " " + std::to_string(place.line) + ":" +
                std::to_string(place.column) + " " + oddity.message + " " + oddity.advice + "\n";
    }
    return text;
}

std::string jig(const std::string& music, const std::string& fields = "") { return tune_of(music, "M:6/8\n" + fields); }

}  // namespace

TEST_CASE("oddities: a tune in order has none", "[analysis][oddities]") {
    CHECK(told(jig("G|c3 e3|d3 B3|c3 e3|d3 c2:|G|c3 e3|d3 B3|c3 e3|d3 c2:|", "R:jig\n")) == "");
    CHECK(told("X:1\nT:Only a Title\nM:4/4\nK:C\n") == "");  // the reader tells of it
}

TEST_CASE("oddities: a bar is told of as a player counts, with its length and what is due", "[analysis][oddities]") {
    CHECK(told(jig("G|c3 e3|d3 B2|c3 e3|d3 c2:|")) ==
          "bar-length warning 7:9 Bar 2 has 5/8 where 6/8 are due. Count it again; a note length is wrong, or a note "
          "too many or too few.\n");
    CHECK(told(tune_of("c8|d6e/2f/2|c8|d8|")) ==
          "bar-length warning 6:4 Bar 2 has 7/8 where 8/8 are due. Count it again; a note length is wrong, or a note "
          "too many or too few.\n");
    CHECK(
        told(jig("c3 e3|d3 B3/2|c3 e3|d3 c3|")) ==
        "bar-length warning 7:7 Bar 2 has 9/16 where 12/16 are due. Count it again; a note length is wrong, or a note "
        "too many or too few.\n");
}

TEST_CASE("oddities: a bar short at the end of a part is a remark", "[analysis][oddities]") {
    CHECK(told(jig("c3 e3|d3 B3|c3 e3|d3 c2:|")) ==
          "bar-length remark 7:19 Bar 4 has 5/8 where 6/8 are due, and no pick-up makes it up. "
          "Add the rest or the pick-up that is missing, so that others can count along.\n");
    CHECK(told(jig("c6|d6||cdef|c6|c6|]")) ==
          "bar-length remark 7:8 The pick-up after bar 2 has 4/8 where 6/8 are due, and no last bar makes room for it. "
          "Add the rest or the pick-up that is missing, so that others can count along.\n");
}

TEST_CASE("oddities: bar lines that are missing, too many or misplaced are named", "[analysis][oddities]") {
    CHECK(told(jig("c6|d6 e6|c6|d6|")) ==
          "bar-length warning 7:4 Bar 2 has 12/8, which is two bars of 6/8. A bar line is probably missing.\n");
    CHECK(told(jig("c6|d6|e3|f3|c6|d6|")) ==
          "bar-length warning 7:7 Bar 3 has 3/8, and with the next it makes one bar of 6/8. A bar line is probably one "
          "too many.\n");
    CHECK(told(jig("c6|d6|e5|f7|c6|d6|")) ==
          "bar-length warning 7:7 Bar 3 has 5/8, and with the next it makes two bars of 6/8. The bar line between them "
          "probably stands in the wrong place.\n");
}

TEST_CASE("oddities: a meter that most bars disagree with is told once", "[analysis][oddities]") {
    CHECK(told(tune_of("c8d8|e8f8|g8a8|c8d8|")) ==
          "bar-length warning 6:1 All 4 bars do not add up to 4/4; most have 8/4 where 4/4 are due. Change M: or L:, "
          "one of them is probably out by half.\n");
    CHECK(told(jig("c9|d9|e9|c6|d9|")) ==
          "bar-length warning 7:1 4 of 5 bars do not add up to 6/8; most have 9/8 where 6/8 are due. M: is probably "
          "wrong; write the meter the bars have.\n");
    CHECK(told(jig("c9|d7|e5|c6|d4|c5|")).find("5 of 6 bars do not add up to 6/8. M: or L: may be wrong") !=
          std::string::npos);
}

TEST_CASE("oddities: many odd bars are told of one by one up to a limit, then counted", "[analysis][oddities]") {
    std::string music;
    for (int bar = 0; bar < 9; ++bar) music += "c6|d7|e6|";
    const std::string text = told(jig(music));
    std::size_t lines = 0;
    for (const char c : text) lines += c == '\n' ? 1 : 0;
    CHECK(lines == analysis::kMaxTold + 1);
    CHECK(text.find("From here on 4 more bars do not add up.") != std::string::npos);
}

TEST_CASE("oddities: a hostile tune does not fill the page", "[analysis][oddities]") {
    std::string music;
    for (int at = 0; at < 500; ++at) music += "|:[M:" + std::to_string(at + 2) + "/8]c40|c40|c40|c40";
    const AbcFile file(jig(music, "R:jig\n"));
    CHECK(analysis::find_oddities(file.only(), analysis::analyse(file.only())).size() <=
          4 * (analysis::kMaxTold + 1) + 3);
}

TEST_CASE("oddities: repeats and endings are told of where the sign stands", "[analysis][oddities]") {
    CHECK(told(tune_of("c8|d8:|\n|:e8|c8|")) ==
          "open-repeat warning 7:3 A repeat opens here and is never closed. Write :| at the end of the part, or a "
          "plain bar line here if it is played once.\n");
    CHECK(told(tune_of("|:c8|d8|:e8|c8:|")) == "");
    CHECK(told(tune_of("|:c8|1 d8:|")).find("A first ending stands here, and no second one follows.") !=
          std::string::npos);
    CHECK(told(tune_of("|:c8|2 d8:|")).find("Ending 2 stands here, and no first one comes before it.") !=
          std::string::npos);
}

TEST_CASE("oddities: a missing meter and a rhythm that does not go with it stand where they can be mended",
          "[analysis][oddities]") {
    CHECK(told("X:1\nT:Test\nL:1/8\nK:C\nc8|d8|\n") ==
          "missing-field remark 1:1 There is no M: line, so the tune counts as free of meter. Write the meter, M:6/8, "
          "or M:none if it is free.\n");
    CHECK(told("X:1\nT:Test\nR:reel\nM:none\nL:1/8\nK:C\nc8|d8|\n") == "");
    CHECK(told("X:1\nT:Test\nM:waltz\nL:1/8\nK:C\nc8|d8|\n") == "");  // the reader tells of it
    CHECK(told(tune_of("c8|d8|e8|c8|", "R:slip jig\n")) ==
          "rhythm-meter remark 5:1 R: says slip jig, and M: says 4/4. Which is meant? If it is a slip jig, write "
          "M:9/8; if "
          "M: is right, R: may be a reel, a hornpipe or a strathspey, or the dance only goes by that name.\n");
    CHECK(told(tune_of("c8|d8|e8|c8|")) == "");  // a rhythm that was inferred from the meter cannot disagree
}

TEST_CASE("oddities: what old books call a jig or print in half notes is no fault", "[analysis][oddities]") {
    CHECK(told("X:1\nT:Test\nR:jig\nM:9/8\nL:1/8\nK:C\nc9|d9|e9|c9|\n") == "");
    CHECK(told("X:1\nT:Test\nR:jig\nM:12/8\nL:1/8\nK:C\nc12|d12|e12|c12|\n") == "");
    CHECK(told("X:1\nT:Test\nR:highland fling\nM:2/4\nL:1/16\nK:C\nc8|d8|e8|c8|\n") == "");
    const std::string straight = told("X:1\nT:Test\nR:jig\nM:2/2\nL:1/8\nK:C\nc8|d8|e8|c8|\n");
    CHECK(straight.find("R: says jig, and M: says 2/2. Which is meant?") != std::string::npos);
    CHECK(
        straight.find("write M:6/8 or M:9/8 or M:12/8; if M: is right, R: may be a reel, a hornpipe or a strathspey") !=
        std::string::npos);
}

TEST_CASE("oddities: a part of a dance with an unusual number of bars is a remark", "[analysis][oddities]") {
    const std::string seven = "c6|d6|e6|c6|d6|e6|c6:|";
    CHECK(told(jig(seven, "R:jig\n")) ==
          "part-length remark 8:1 The part that begins here has 7 bars, unusual for a jig. Nothing need be wrong; "
          "count the bars if you "
          "mean to play for dancers.\n");
    CHECK(told(jig(seven, "R:set dance\n")) == "");
    CHECK(told(jig(seven, "R:air\n")) == "");
    CHECK(told(jig(seven)) == "");                                        // no R:
    CHECK(told(jig("c6|d6|e6|c6:|c6||d6|e6|c6|d6:|", "R:jig\n")) == "");  // one bar is no part
    CHECK(told(jig("c6|d6|e5|c6|d6|e6|c6:|", "R:jig\n")).find("part-length") ==
          std::string::npos);  // what is a bar there?
}

TEST_CASE("oddities: those of the whole tune come first, the others by place", "[analysis][oddities]") {
    const std::string text = told(tune_of("|:c8|d7|1 e8|c8:|\n|:e8|f9|c8|d8:|", "R:slip jig\n"));
    CHECK(text.substr(0, 12) == "rhythm-meter");
    const std::size_t repeat = text.find("A first ending"), first = text.find("7:6 Bar 2"),
                      second = text.find("8:6 Bar 6");
    REQUIRE(second != std::string::npos);
    CHECK(first < repeat);
    CHECK(repeat < second);
}
