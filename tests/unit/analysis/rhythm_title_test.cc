#include "analysis/rhythm_title.h"

#include <catch2/catch.hpp>

namespace {

std::string kind_of(const char* title) { return analysis::rhythm_of_title(title).value_or("(none)"); }

struct Case {
    const char* title;
    const char* kind;
};

}  // namespace

// Source: common practice, no source.
TEST_CASE("title: a kind at its end is what the tune is", "[analysis][rhythm]") {
    for (const Case& one : {Case{"The Boathouse Reel", "reel"},
                            {"Boathouse -- REEL", "reel"},
                            {"Boathouse -- Reel.", "reel"},
                            {"Boathouse -- JIG., The", "jig"},
                            {"Boathouse Jig, The", "jig"},
                            {"The Boatman's Jig", "jig"},
                            {"Boathouse -- Slipjig", "slip jig"},
                            {"The Boathouse Slip Jig", "slip jig"},
                            {"The Boathouse Highland Fling", "highland fling"},
                            {"The Boathouse Barn Dance", "barndance"},
                            {"The Boathouse Hornpipe No. 2", "hornpipe"},
                            {"The Boathouse Hornpipe (version 2)", "hornpipe"},
                            {"The Boathouse (polka)", "polka"},
                            {"The Boathouse (slow air)", "air"},
                            {"The Boathouse [strathspey]", "strathspey"},
                            {"The Boatman's Lament", "air"},
                            {"The Boathouse March", "march"},
                            {"Reel", "reel"},
                            {"A Hornpipe", "hornpipe"}}) {
        CAPTURE(one.title);
        CHECK(kind_of(one.title) == one.kind);
    }
}

TEST_CASE("title: a kind at its beginning is one before `of` or `for`", "[analysis][rhythm]") {
    CHECK(kind_of("Reel of the Boathouse") == "reel");
    CHECK(kind_of("Lament for the Boathouse") == "air");
    CHECK(kind_of("The March of the Boatmen") == "march");
    CHECK(kind_of("Planxty Boathouse") == "planxty");
    CHECK(kind_of("Reel around the Boathouse") == "(none)");
    CHECK(kind_of("Jigging the Boat") == "(none)");
}

TEST_CASE("title: slow in brackets or in front is an air", "[analysis][rhythm]") {
    CHECK(kind_of("The Boathouse (slow)") == "air");
    CHECK(kind_of("Slow Boathouse") == "air");
    CHECK(kind_of("The Slow Reel") == "reel");
    CHECK(kind_of("The Boat is Slow to Leave") == "(none)");
}

TEST_CASE("title: a word that means something else names no kind", "[analysis][rhythm]") {
    for (const char* title : {"The Boathouse", "The Tenth of March", "Up in the Air", "The Boys on the Slide", "Fair",
                              "The Air", "Dance to a Jig", "The Slide", "The Reeler", "", "(none)", "The Fling"}) {
        CAPTURE(title);
        CHECK(kind_of(title) == "(none)");
    }
}
