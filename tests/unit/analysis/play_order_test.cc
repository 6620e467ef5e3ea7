#include "analysis/play_order.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <string>

#include "../abc/written.h"
#include "analysis/outline_of.h"

using analysis::play_bars;
using analysis::play_bars_once;

namespace {

tune::Outline outline_played(const std::string& music) {
    return analysis::outline_of(written::AbcFile(written::tune_of(music)).only().melody);
}

// Bars of one note each are told by it: `C D E`.
std::string played(const std::string& music, bool once = false) {
    const tune::Outline outline = outline_played(music);
    std::string text;
    for (const std::uint32_t bar : once ? play_bars_once(outline) : play_bars(outline))
        text += bar < outline.bars.size() && outline.end_of(bar) > outline.bars[bar].first_note
                    ? "C.D.EF.G.A.B"[outline.notes[outline.bars[bar].first_note].midi - 60]
                    : '-';
    return text;
}

}  // namespace

TEST_CASE("play_order: repeats go back to where the part began", "[analysis][play_order]") {
    CHECK(played("C8|D8|E8|") == "CDE");
    CHECK(played("|:C8|D8:|E8|") == "CDCDE");
    CHECK(played("C8|D8:|E8|F8:|") == "CDCDEFEF");
    CHECK(played("C8|:D8:|E8|") == "CDDE");
    CHECK(played("|:C8::D8:|") == "CCDD");
}

TEST_CASE("play_order: endings in their turn", "[analysis][play_order]") {
    CHECK(played("|:C8|1 D8:|2 E8||F8|") == "CDCEF");
    CHECK(played("|:C8|1 D8:|2 E8:|F8|") == "CDCEF");
    CHECK(played("|:C8|1,3 D8:|2 E8:|4 F8|]G8|") == "CDCECDCFG");
    CHECK(played("|:C8|1 D8:|2 E8||F8|1 G8:|2 A8|]") == "CDCEFGFA");
    CHECK(played("|:C8|1 D8:|F8|") == "CDCF");  // the second ending has no sign
}

TEST_CASE("play_order: a tune that goes back to its beginning is played again up to its end",
          "[analysis][play_order]") {
    CHECK(played("C8|D8\"Fine\"||E8|F8\"D.C.\"|]") == "CDEFCD");
    CHECK(played("|:C8|D8\"Fine\":|:E8|F8\"D.C.\":|") == "CDCDEFEFCD");  // without repeats
    CHECK(played("C8|D8||E8|F8\"D.C.\"|]") == "CDEFCD");                 // without Fine the first part ends it
    CHECK(played("|:C8|1 D8:|2 E8\"Fine\"||F8|G8\"D.C. al Fine\"|]") == "CDCEFGCE");
    CHECK(played("|:C8|1 D8:|2 E8||F8|G8\"Fine\"||A8\"D.C.\"|]") == "CDCEFGACEFG");
    CHECK(played("C8|D8||E8|F8\"Fine\"|]") == "CDEF");
    CHECK(played("C8|D8\"Fine\"||E8|F8\"D.C.\"|]", true) == "CDEF");  // each thing once
}

TEST_CASE("play_order: pick-ups and empty ends are left out", "[analysis][play_order]") {
    CHECK(played("G2|C8|D6:|A2|E8|F6:|") == "CDCDEFEF");
    CHECK(played("z8|C8|z8|D8|z8|") == "C-D");
}

TEST_CASE("play_order: a block played again counts once", "[analysis][play_order]") {
    const std::string once = played("C8|D8|E8|F8|G8|A8|G8|B8|", true);
    CHECK(once == "CDEFGAGB");
    CHECK(played("|:C8|D8|E8|F8:|:G8|A8|G8|B8:|", true) == once);
    CHECK(played("C8|D8|E8|F8|C8|D8|E8|F8|G8|A8|G8|B8|", true) == once);
    CHECK(played("|:C8|D8|E8|F8|G8|A8|G8|B8:|", true) == once);
    CHECK(played("C8|D8|E8|C8|D8|E8|G8|", true) == "CDECDEG");  // three bars are a figure of the tune
    // The pick-up in the last bar of a written-out repeat.
    CHECK(played("G2|C8|D8|E8|F6 G2|C8|D8|E8|F6||A8|", true) == "CDEFA");
    CHECK(played("G2|C8|D8|E8|F4 G4|C8|D8|E8|F6||A8|", true) == "CDEFCDEFA");
}

TEST_CASE("play_order: hostile repeats stay within bounds", "[analysis][play_order]") {
    tune::Outline outline;
    for (std::uint32_t bar = 0; bar < 100000; ++bar) {
        outline.notes.push_back({0, 60});
        outline.bars.push_back({bar, 13440, static_cast<std::int32_t>(bar),
                                static_cast<std::uint16_t>(bar % 7 == 0 ? 0xFFFE : 4), false, false, false, true});
    }
    const auto start = std::chrono::steady_clock::now();
    CHECK(play_bars(outline).size() <= 16 * outline.bars.size());
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(5));
}

TEST_CASE("play_order: the usual bar", "[analysis][play_order]") {
    const tune::Outline outline = outline_played("C8|D8|E6|");
    CHECK(analysis::usual_bar_length(outline, play_bars(outline)) == 13440);
    CHECK(analysis::usual_bar_length(outline, {}) == 0);
}
