#include "analysis/rhythm_name.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"

using written::AbcFile;

namespace {

const std::string kSetReel = "GABc dcBA|GABc dcBA|GABc dcBA|GABc dcBA|\n";

// `reel (computed) hornpipe, polka`; `(none)`.
std::string found(const std::string& header, const std::string& body) {
    const AbcFile file("X:1\n" + header + "K:G\n" + body);
    const analysis::FoundRhythm rhythm = analysis::find_rhythm(file.only());
    std::string text = rhythm.rhythm
                           ? rhythm.rhythm->value + " (" + std::string(tune::basis_token(rhythm.rhythm->basis)) + ")"
                           : "(none)";
    for (const std::string& kind : rhythm.possible) text += (text.back() == ')' ? " " : ", ") + kind;
    return text;
}

}  // namespace

TEST_CASE("rhythm: R: goes before all else the file says", "[analysis][rhythm]") {
    CHECK(found("T:Boathouse Reel\nM:4/4\nL:1/8\nR:hornpipe\nQ:1/4=30\n", kSetReel) == "hornpipe (stated)");
    CHECK(found("M:6/8\nR:Slow Air\n", "GAB cde|\n") == "air (stated)");
    CHECK(found("M:4/4\nL:1/8\nR:  \n", kSetReel) == "reel (computed) hornpipe");
    CHECK(found("M:4/4\nL:1/8\nR:boathouse shuffle\n", kSetReel) == "boathouse shuffle (stated)");
}

TEST_CASE("rhythm: a jig in 9/8 is a slip jig", "[analysis][rhythm]") {
    CHECK(found("M:9/8\nR:jig\n", "GAB cde dcB|\n") == "slip jig (stated)");
    CHECK(found("T:Boathouse Jig\nM:9/8\n", "GAB cde dcB|\n") == "slip jig (title)");
    CHECK(found("M:9/8\nR:hop jig\n", "GAB cde dcB|\n") == "hop jig (stated)");
}

TEST_CASE("rhythm: beside an R: that the meter contradicts stands what the meter allows", "[analysis][rhythm]") {
    CHECK(found("M:2/2\nL:1/8\nR:jig\n", kSetReel) == "jig (stated) reel, hornpipe");
    CHECK(found("M:6/8\nR:reel\n", "GAB cde|dcB AGF|\n") == "reel (stated) jig");
    CHECK(found("M:5/8\nR:reel\n", "GABcd|\n") == "reel (stated)");
    CHECK(found("M:none\nR:reel\n", "GABcd|\n") == "reel (stated)");
}

TEST_CASE("rhythm: a title's own word counts where the meter suits it", "[analysis][rhythm]") {
    CHECK(found("T:Boathouse -- HORNPIPE\nM:4/4\nL:1/8\n", kSetReel) == "hornpipe (title)");
    CHECK(found("T:Boathouse Jig\nM:4/4\nL:1/8\n", kSetReel) == "reel (computed) hornpipe");
    CHECK(found("T:Boathouse\nT:Boatman's Polka\nM:2/4\nL:1/8\n", "GABc|d2d2|\n") == "polka (title)");
}

TEST_CASE("rhythm: a slow tempo makes an air", "[analysis][rhythm]") {
    const std::string air = "air (computed) reel, hornpipe";
    for (const char* line :
         {"Q:\"Slow\"\n", "Q:1/4=120 \"Very slow\"\n", "Q:1/4=60\n", "Q:1/2=39\n", "Q:Slow\n", "N:Slow\n",
          "N:\"Slow with feeling\" \"collected on the quay\"\n", "N:Very slow.\n", "N:Slow air\n", "N:Lament\n",
          "N:Tenderly\n", "N:\"With feeling\"\n", "N:\"With expression\" \"collected on the quay\"\n", "N:Plaintive\n",
          "N:Plaintively\n", "Q:\"Mournfully\"\n"}) {
        CAPTURE(line);
        CHECK(found("M:4/4\nL:1/8\n" + std::string(line), kSetReel) == air);
    }
    for (const char* line :
         {"Q:1/4=120\n", "Q:1/2=40\n", "Q:40\n", "N:played on a slow boat\n", "N:Slower than the other\n", "N:Airy\n",
          "N:With spirit\n", "N:with the feeling that it is old\n", "Q:\"Lively\"\n"}) {
        CAPTURE(line);
        CHECK(found("M:4/4\nL:1/8\n" + std::string(line), kSetReel) == "reel (computed) hornpipe");
    }
    CHECK(found("M:6/8\nQ:3/8=54\n", "GAB cde|dcB AGF|\n") == "air (computed) jig");
    CHECK(found("M:6/8\nQ:3/8=55\n", "GAB cde|dcB AGF|\n") == "jig (computed)");
    CHECK(found("M:3/4\nQ:1/4=79\n", "G2A2B2|\n") == "air (computed) waltz");
    CHECK(found("M:2/4\nL:1/8\nQ:1/4=59\n", "GABc|d2d2|\n") == "air (computed) polka, march");
}

TEST_CASE("rhythm: a song with words under its notes is no dance", "[analysis][rhythm]") {
    CHECK(found("M:4/4\nL:1/8\n", "G2G2 d2d2|e2e2 d4|\nw:Down by the wa-ter, down\n") == "air (computed)");
    CHECK(found("M:4/4\nL:1/8\nR:reel\n", "G2G2 d2d2|e2e2 d4|\nw:Down by the wa-ter, down\n") == "reel (stated)");
    SECTION("the names of notes and fingers are no words") {
        CHECK(found("M:4/4\nL:1/8\n", "GABc dcBA|GABc dcBA|\nw:G A B C D C B A G A B C D C B A\n") ==
              "reel (computed) hornpipe");
        CHECK(found("M:4/4\nL:1/8\n", "GABc dcBA|GABc dcBA|\nw:1 2 3 4 1 2 3 4 1 2 3 4 1 2 3 4\n") ==
              "reel (computed) hornpipe");
    }
    SECTION("a rhyme under a few bars leaves a dance a dance") {
        CHECK(found("M:4/4\nL:1/8\n", kSetReel + "w:Down by the wa-ter\n") == "reel (computed) hornpipe");
    }
}

TEST_CASE("rhythm: without a note there is none", "[analysis][rhythm]") {
    CHECK(found("M:6/8\n", "z6|\n") == "(none)");
    CHECK(found("M:6/8\nN:Slow\n", "z6|\n") == "(none)");
    CHECK(found("M:7/8\n", "GABcdef|\n") == "(none)");
}
