#include "analysis/bar_sums.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <string>

#include "../abc/written.h"

using analysis::OddBar;
using written::AbcFile;
using written::tune_of;

namespace {

// `3 7/8, 5 2 line-missing, 8 edge 3/4; misfit 4/4 6 of 8 all 3/4`: bars count from 1 as written, pick-ups too.
std::string sums(const std::string& abc) {
    const AbcFile file(abc);
    const music::Melody& melody = file.only().melody;
    const analysis::BarSums found = analysis::add_up_bars(melody);
    std::string text;
    for (const OddBar& odd : found.odd) {
        text += (text.empty() ? "" : ", ") + std::to_string(odd.bar + 1) + (odd.at_edge ? " edge " : " ") +
                to_string(*melody.bars[odd.bar].length);
        if (odd.likely == OddBar::Likely::line_missing) text += " line-missing";
        if (odd.likely == OddBar::Likely::line_too_many) text += " line-too-many";
        if (odd.likely == OddBar::Likely::line_misplaced) text += " line-misplaced";
    }
    for (const analysis::MeterMisfit& misfit : found.misfits)
        text += (text.empty() ? "misfit " : "; misfit ") + to_string(misfit.meter) + " " +
                std::to_string(misfit.misfits) + " of " + std::to_string(misfit.bars) + " from " +
                std::to_string(misfit.first_bar + 1) + (misfit.length ? " all " + to_string(*misfit.length) : "");
    return text;
}

std::string jig_of(const std::string& music) { return tune_of(music, "M:6/8\n"); }

}  // namespace

TEST_CASE("bar sums: whole bars add up", "[analysis][bar_sums]") {
    CHECK(sums(jig_of("GAB c2d|e3 d3|(3GAB c d2e|")) == "");
    CHECK(sums(jig_of("GAB c2d|e3 [d3B2]|{ga}GAB z3|")) == "");
    CHECK(sums(tune_of("G4 A4|(3GAB c2 d4|G>A B<c d2 e2|")) == "");
}

TEST_CASE("bar sums: inner bars that are too short or too long do not", "[analysis][bar_sums]") {
    CHECK(sums(jig_of("GAB c2d|e3 d2|GAB c3|G6|A6|")) == "2 5/8");
    CHECK(sums(jig_of("GAB c2d|e3 d4|GAB c3|G6|A6|")) == "2 7/8");
    CHECK(sums(jig_of("GAB c2d|e3 d/2e/2f/2|GAB c3|G6|A6|")) == "2 9/16");
}

TEST_CASE("bar sums: a pick-up and the short last bar that makes room for it", "[analysis][bar_sums]") {
    // Source: common practice, no source.
    CHECK(sums(jig_of("A|GAB c2d|e3 d2:|")) == "");
    CHECK(sums(jig_of("A|GAB c2d|e3 d2||B|GAB c2d|e3 d2|]")) == "");
    CHECK(sums(jig_of("A|GAB c2d|e3 d3|]")) == "");                   // the pick-up is left over: many are written so
    CHECK(sums(jig_of("GA|GAB c2d|e3 d2|]")) == "3 edge 5/8");        // 2/8 and 5/8 make seven
    CHECK(sums(jig_of("GAB c2d|e3 d2|]")) == "2 edge 5/8");           // nothing makes it up
    CHECK(sums(jig_of("G6|e3 d2||B|GAB c2d|e3 d2|]")) == "");         // the pick-up of the second part
    CHECK(sums(jig_of("GA|GAB c2d|e3 d:|B|GAB c2d|e3 d2:|")) == "");  // each part its own
    CHECK(sums(jig_of("G6|e3 d3||BcdB|GAB c2d|e3 d3|]")) ==
          "3 edge 1/2");  // four quavers are more than a pick-up left over
}

TEST_CASE("bar sums: a bar split by a repeat sign, a double bar or a part label", "[analysis][bar_sums]") {
    CHECK(sums(jig_of("G6|A6|GAB:|:c2d|e6|G6:|")) == "");
    CHECK(sums(jig_of("G6|A6|GAB||c2d|e6|G6|]")) == "");
    CHECK(sums(jig_of("G6|A6|GA||c2d|e6|G6|]")) == "3 edge 1/4");
    CHECK(sums(jig_of("P:A\nA|G6|A3 A2|\nP:B\nB|e6|G3 G2|")) == "");
    CHECK(sums(jig_of("A|G6|A3 A2|B|e6|G3 G2|")) == "3 5/8 line-too-many");  // without the labels
}

TEST_CASE("bar sums: endings lead back to the pick-up and on to the next part", "[analysis][bar_sums]") {
    CHECK(sums(jig_of("A|G6|B6|1 c3 d2:|2 c6||G6|A6|]")) == "");
    CHECK(sums(jig_of("A|G6|B6|1 c3 d2:|2 c3 B2||A|G6|A3 A2|]")) == "");
    CHECK(sums(jig_of("|:G6|B3 [1 c3:|[2 d3||G6|A6|]")) == "");  // the endings begin in mid bar
    CHECK(sums(jig_of("A|:G6|B3 [1 c2A:|[2 d2 B||G6|A6|]")) == "");
    CHECK(sums(jig_of("A|G6|B3 [1 c2:|[2 d3||G6|A6|]")) == "");  // before, ending and pick-up make one bar
    CHECK(sums(jig_of("|:G6|B3 [1 c2:|[2 d3||G6|A6|]")) == "2 edge 3/8, 3 edge 1/4");
    CHECK(sums(jig_of("|:G6|B6|1 c2 d2:|2 c6||G6|A6|]")) == "3 edge 1/2");
}

TEST_CASE("bar sums: a fermata over a rest that is not printed, at the end of a bar, takes no time",
          "[analysis][bar_sums]") {
    // As old collections are typed; the letter stands for a sign over the bar line.
    CHECK(sums(tune_of("A2|G4 A4|B4 c4|d4 c4|G4- G2 Hx||G2|G4 A4|B4 c4|G6|]")) == "");
    CHECK(sums(tune_of("G4 A4|B4 c4|d4 B2 d2|G8 Hx|]")) == "");
    CHECK(sums(tune_of("G4 A4|B4 c4|d4 B4|G6 !fermata!x2|]")) == "");  // the rest that fills the bar counts
    CHECK(sums(tune_of("G4 A4|B4 c4|d4 B3 Hx|G8|B8|]")) == "");        // in the middle of a part too
    CHECK(sums(tune_of("G4 A4|B4 c4|d4 B2 Hx|G8|B8|]")) == "3 7/8");   // neither adds up
    CHECK(sums(tune_of("G4 A4|B4 c4|d4 HB4 x|G8|B8|]")) == "3 9/8");   // the fermata is over the note
    CHECK(sums(tune_of("G4 A4|B4 c4|d4 Hx B4|G8|B8|]")) == "3 9/8");   // the rest is not the last
}

TEST_CASE("bar sums: free meter, long rests and bars that cannot be added up are left alone", "[analysis][bar_sums]") {
    CHECK(sums(tune_of("GAB|c2|defgab|", "M:none\n")) == "");
    CHECK(sums(jig_of("G6|Z4|A6|")) == "");
    CHECK(sums(tune_of("G8|(7:4:1G (11:4:1A (13:4:1B (17:4:1c (19:4:1d (23:4:1e (29:4:1f (31:4:1g|A8|")) == "");
}

TEST_CASE("bar sums: a change of meter holds from its bar on", "[analysis][bar_sums]") {
    CHECK(sums(jig_of("G6|A6|[M:9/8]GAB c3 d3|e9|[M:6/8]G6|")) == "");
    CHECK(sums(jig_of("G6|A6|[M:9/8]GAB c3 d3|e6|G9|[M:6/8]G6|")) == "4 3/4");
    CHECK(sums(jig_of("A|G6|A3 A2|\nM:2/4\nB|c4|d3|")) == "");  // a new meter begins a part
}

TEST_CASE("bar sums: what a bar line is likely to have to do with it", "[analysis][bar_sums]") {
    CHECK(sums(jig_of("G6|A6|GAB c2d e3 d3|G6|A6|")) == "3 3/2 line-missing");
    CHECK(sums(jig_of("G6|A6|GAB|c2d|e6|d6|")) == "3 3/8 line-too-many");
    CHECK(sums(jig_of("G6|A6|GAB cde|f3 g2|a2b g2f e|d6|c6|")) == "4 5/8 line-misplaced");
    CHECK(sums(jig_of("G6|A6|GAB c2|d6|G3 A2|d6|")) == "3 5/8, 5 5/8");
}

TEST_CASE("bar sums: most bars are of another length, so the meter is told once", "[analysis][bar_sums]") {
    CHECK(sums(tune_of("G4|A4|B4|c4|d4|e4|")) == "misfit 4/4 4 of 4 from 2 all 1/2");  // first and last may make one
    CHECK(sums(tune_of("G3 A3 B3|c9|d9|e9|", "M:6/8\n")) == "misfit 6/8 4 of 4 from 1 all 9/8");
    CHECK(sums(tune_of("G3|c9|d9|e5|f7|g6|", "M:6/8\n")) == "misfit 6/8 4 of 5 from 2");
    CHECK(sums(tune_of("G9|c9|d6|e6|f6|", "M:6/8\n")) == "1 edge 9/8, 2 9/8");
    CHECK(sums(tune_of("G9|c9|d9|", "M:6/8\n")) == "1 edge 9/8, 2 9/8, 3 edge 9/8");  // too few to say
    CHECK(sums(jig_of("G6|A6|B6|c5|[M:3/4]G4|A4|B4|c4|d4|")) == "4 edge 5/8; misfit 3/4 5 of 5 from 5 all 1/2");
}

TEST_CASE("bar sums: nothing is said of nothing", "[analysis][bar_sums]") {
    CHECK(analysis::add_up_bars(music::Melody{}).odd.empty());
    CHECK(sums(jig_of("")) == "");
    CHECK(sums(jig_of("GABc")) == "1 edge 1/2");  // one bar alone leads out of nothing
    CHECK(sums(jig_of("GABc|{c}")) == "1 edge 1/2");
}

TEST_CASE("bar sums: a hundred thousand odd bars take no longer than they must", "[analysis][bar_sums]") {
    std::string music;
    for (int bar = 0; bar < 100000; ++bar)
        music += "G" + std::to_string(bar % 500 + 1) + (bar % 3 == 0 ? ":|[1" : bar % 7 == 0 ? "||" : "|");
    const AbcFile file(jig_of(music));
    const auto start = std::chrono::steady_clock::now();
    CHECK(!analysis::add_up_bars(file.only().melody).misfits.empty());
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(5));
}
