#include "analysis/part_lengths.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"

using written::AbcFile;
using written::tune_of;

namespace {

// `1:8/8 9:8/8`: first bar from 1, bars, bars of the repeated section.
std::string parts(const std::string& music, const std::string& fields = "") {
    const AbcFile file(tune_of(music, fields));
    std::string text;
    for (const analysis::PartLength& part : analysis::measure_parts(file.only().melody))
        text += (text.empty() ? "" : " ") + std::to_string(part.first_bar + 1) + ":" + std::to_string(part.bars) + "/" +
                std::to_string(part.repeated_bars);
    return text;
}

}  // namespace

TEST_CASE("part lengths: from one double bar or repeat sign to the next", "[analysis][part_lengths]") {
    CHECK(parts("G8|A8|B8|c8:|G8|A8|B8|c8|d8|e8:|") == "1:4/4 5:6/6");
    CHECK(parts("|:G8|A8:|:B8|c8|d8:|") == "1:2/2 3:3/3");
    CHECK(parts("G8|A8|B8|c8|]") == "1:4/4");
}

TEST_CASE("part lengths: double bars inside a repeat make parts of one section", "[analysis][part_lengths]") {
    CHECK(parts("|:G8|A8|B8||c8|d8|e8|f8|g8:|A8|B8|]") == "1:3/8 4:5/8 9:2/2");
}

TEST_CASE("part lengths: pick-ups and short last bars count by their time", "[analysis][part_lengths]") {
    CHECK(parts("A2|G8|A8|B8|c6:|A2|G8|A8|B8|c6:|") == "1:4/4 6:4/4");
    CHECK(parts("A|G8|A8|B8|c8:|") == "1:4/4");  // to the nearest
    CHECK(parts("A4|G8|A8|B8|c8:|") == "1:4/4");
    CHECK(parts("G8|Z3|A8|B8|c8|d8|") == "1:8/8");
}

TEST_CASE("part lengths: of several endings the first counts", "[analysis][part_lengths]") {
    CHECK(parts("|:G8|A8|B8|1 c8:|2 d8||e8|f8|]") == "1:4/4 6:2/2");
    CHECK(parts("|:G8|A8|[1 B8|c8:|[2 d8|e8:|:e8|f8|g8:|") == "1:4/4 7:3/3");
}

TEST_CASE("part lengths: nothing where bars cannot be counted", "[analysis][part_lengths]") {
    CHECK(parts("G8|A8|", "M:none\n") == "");
    CHECK(parts("G8|A8|[M:none]B9|c3|") == "");
    CHECK(analysis::measure_parts(music::Melody{}).empty());
}

TEST_CASE("part lengths: the dances whose parts are groups of four bars", "[analysis][part_lengths]") {
    // Source: common practice, no source.
    for (const char* rhythm : {"reel", "jig", "slip jig", "hornpipe", "polka", "waltz"})
        CHECK(analysis::has_even_parts(rhythm));
    for (const char* rhythm : {"air", "march", "set dance", "planxty", "lament", ""})
        CHECK_FALSE(analysis::has_even_parts(rhythm));
}
