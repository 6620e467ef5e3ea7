#include "analysis/scrap.h"

#include <catch2/catch.hpp>
#include <string>

#include "abc/read.h"
#include "analysis/analyse.h"

using tune::Scrap;

namespace {

std::optional<Scrap> scrap_of(const std::string& music, const std::string& header = "T:The Lamp\nM:4/4\nL:1/8\n") {
    base::Diagnostics unheard;
    const base::SourceFile source("test.abc", "X:1\n" + header + "K:D\n" + music + "\n");
    const auto settings = abc::read_settings(source, unheard);
    REQUIRE(settings.size() == 1);
    return analysis::analyse(settings.front()).scrap;
}

const std::string kFour = "DEFA BAFA|DEFA d2AF|DEFA BAFA|dBAF E2D2";

}  // namespace

TEST_CASE("a tune has eight bars, repeats played out", "[scrap]") {
    CHECK_FALSE(scrap_of(kFour + "|" + kFour + "|]"));  // once, no repeats
    CHECK_FALSE(scrap_of("|:" + kFour + ":|"));         // a single part of four, repeated
    CHECK_FALSE(scrap_of("|:" + kFour + ":|\n|:" + kFour + ":|"));
    CHECK_FALSE(scrap_of("A2|" + kFour + "|" + kFour + "|]"));  // a pick-up is no bar, and takes none away
    CHECK(scrap_of(kFour + "|]") == Scrap::few_bars);
    CHECK(scrap_of("A2|" + kFour + "|]") == Scrap::few_bars);
    CHECK(scrap_of("|:DEFA BAFA|DEFA d2AF|dBAF E2D2:|") == Scrap::few_bars);
    CHECK(scrap_of(kFour + "|DEFA BAFA|DEFA d2AF|D8|]") == Scrap::few_bars);
    CHECK_FALSE(scrap_of("z8|"));  // nothing sounds: that is told elsewhere
}

TEST_CASE("in free time bars say nothing, notes do", "[scrap]") {
    const std::string free = "T:The Lamp\nM:none\nL:1/8\n";
    CHECK(scrap_of("D2EF A4|B2AF D4|", free) == Scrap::few_bars);
    CHECK_FALSE(scrap_of("D2EF A4 B2AF E4|D2EF A4 d2AF E4|DEFA B2AF E4 D4|", free));
}

TEST_CASE("music that stops in the middle breaks off", "[scrap]") {
    const std::string eight = kFour + "|" + kFour;
    CHECK(scrap_of(eight + "|" + kFour + "|DEFA BA") == Scrap::breaks_off);
    CHECK(scrap_of(eight + "|" + kFour + "|DEFA BA|") == Scrap::breaks_off);
    // A part that lacks bars the other has.
    CHECK(scrap_of("|:" + eight + ":|\n" + kFour + "|DEFA BAFA") == Scrap::breaks_off);
    // A last bar that makes up for the pick-up, one that is only short of a rest, and one that is closed.
    CHECK_FALSE(scrap_of("A2|" + eight + "|" + kFour + "|DEFA BAFA|DEFA d2AF|DEFA BAFA|dBAF E2"));
    CHECK_FALSE(scrap_of(eight + "|" + kFour + "|DEFA BAFA|DEFA d2AF|DEFA BAFA|dBAF D2"));
    CHECK_FALSE(scrap_of(eight + "|" + kFour + "|DEFA BA|]"));
    // Airs go their own ways.
    CHECK_FALSE(scrap_of("|:" + eight + ":|\n" + kFour + "|DEFA BAFA", "T:The Lamp\nR:air\nM:4/4\nL:1/8\n"));
}

TEST_CASE("titles of scraps", "[scrap]") {
    for (const char* title : {"Missing title", "MISSING TITLE!", "(untitled)", "No title", "2nd part", "Second Part",
                              "Lamp, 2nd part", "The Lamp (part B)", "The Lamp - Part 2", "B part", "3rd strain",
                              "second ending", "The Lamp (fragment)", "The Lamp, incomplete"}) {
        INFO(title);
        CHECK(analysis::is_title_of_scrap(title));
    }
    for (const char* title : {"The Lamp", "Part of the Lamp", "The Better Part", "Gan ainm", "Untitled Reel",
                              "The Parting", "Half the Lamp", "The Second Lamp", "The Lamp, second setting",
                              "The Lamp No. 2", "The Unfinished Wall", "Turn", ""}) {
        INFO(title);
        CHECK_FALSE(analysis::is_title_of_scrap(title));
    }
    const std::string eight = kFour + "|" + kFour + "|]";
    CHECK(scrap_of(eight, "T:2nd part\nM:4/4\nL:1/8\n") == Scrap::title);
    CHECK(scrap_of(kFour, "T:2nd part\nM:4/4\nL:1/8\n") == Scrap::few_bars);
    CHECK_FALSE(scrap_of(eight, "M:4/4\nL:1/8\n"));  // no title at all is told by the reader
}

TEST_CASE("every reason has a word, and words of its own", "[scrap]") {
    for (const Scrap scrap : tune::kScraps) {
        CHECK(tune::parse_scrap(tune::scrap_token(scrap)) == scrap);
        CHECK_FALSE(tune::scrap_in_words(scrap).empty());
    }
    CHECK_FALSE(tune::parse_scrap("none"));
}
