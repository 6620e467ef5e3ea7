#include "repertoire/bar_stock.h"

#include <catch2/catch.hpp>

#include "unit/repertoire/shapes.h"

using repertoire::BarStock;
using repertoire::Figure;
using repertoire::figures_of;

namespace {

std::vector<Figure> figures(const std::string& music, const std::string& key = "D") {
    return figures_of(repertoire_test::fetched("X:1\nM:4/4\nL:1/8\nK:" + key + "\n" + music + "\n").outline);
}

}  // namespace

TEST_CASE("figures: the different bars of a tune, each once", "[repertoire]") {
    CHECK(figures("D2 E2 F2 G2|A8|D2 E2 F2 G2|A8|]").size() == 2);
    CHECK(figures("D2 E2 F2 G2|D2 E2 F2 A2|D2 E2 F2 G2|D3 E F2 G2|]").size() == 3);
    CHECK(figures("z8|z8|]").empty());
}

TEST_CASE("figures: within a tune a bar at another pitch, or cut short, is another bar", "[repertoire]") {
    const auto tune = figures("D2 E2 F2 A2|G2 A2 B2 d2|D2 E2 F2 A2|D2 E2 F2 A|]");
    CHECK(tune.size() == 3);
    CHECK(tune.front() == tune.back());  // in any key they are one figure
    BarStock stock;
    stock.add(figures("C2 D2 E2 G2|]", "C"));
    CHECK(stock.count_known(tune) == 3);
}

TEST_CASE("figures: as many as a tune has different bars", "[repertoire]") {
    const auto agree = [](const std::string& music) {
        const auto tune = repertoire_test::fetched("X:1\nM:4/4\nL:1/8\nK:D\n" + music + "\n");
        return static_cast<int>(figures_of(tune.outline).size()) == tune.record.different_bars;
    };
    CHECK(agree("A2|D2 E2 F2 A2|d2 e2 f2 a2|D2 E2 F2 A2:|D8|D6:|"));
    CHECK(agree("DEFG ABcd|{c}dcBA GFED|DEFG AB c2|]"));
    CHECK_FALSE(agree("z8|D8|]"));           // a bar of rests is written, not learnt
    CHECK_FALSE(agree("A8|[DA]8|[FA]8|]"));  // chords are learnt by their top notes
}

TEST_CASE("figures: the same in any key and octave, not the other way round", "[repertoire]") {
    CHECK(figures("D2 E2 F2 A2|]") == figures("d2 e2 f2 a2|]"));
    CHECK(figures("D2 E2 F2 A2|]") == figures("G2 A2 B2 d2|]", "G"));
    CHECK(figures("D2 E2 F2 A2|]", "D") != figures("D2 E2 F2 A2|]", "F"));  // F is natural there
    CHECK(figures("D2 E2 F2 A2|]") != figures("A2 F2 E2 D2|]"));
    CHECK(figures("D2 E2 F2 A2|]") != figures("D3 E F2 A2|]"));
}

TEST_CASE("figures: pick-ups do not count, nor how long the last note of a bar is held", "[repertoire]") {
    CHECK(figures("A2|D2 E2 F2 A2|]") == figures("D2 E2 F2 A2|]"));
    CHECK(figures("D2 E2 F2 A2|]") == figures("D2 E2 F2 A|]"));
}

TEST_CASE("a stock of bars: what was added, and all that lies below", "[repertoire]") {
    const auto known = figures("D2 E2 F2 G2|A8|]");
    const auto tune = figures("D2 E2 F2 G2|A8|F2 E2 D4|]");
    BarStock stock;
    CHECK(stock.count_known(tune) == 0);
    stock.add(known);
    CHECK(stock.count_known(tune) == 2);
    BarStock more(&stock);
    CHECK(more.count_known(tune) == 2);
    more.add(tune);
    CHECK(more.count_known(tune) == 3);
    CHECK(stock.count_known(tune) == 2);
}
