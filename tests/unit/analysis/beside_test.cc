#include "analysis/beside.h"

#include <catch2/catch.hpp>
#include <string>

#include "../abc/written.h"
#include "analysis/outline_of.h"

using analysis::BarBeside;
using analysis::lay_beside;

namespace {

tune::Outline outlined(const std::string& music, const std::string& key = "C", const std::string& fields = "") {
    return analysis::outline_of(written::AbcFile(written::tune_of(music, fields, key)).only().melody);
}

const std::string kReel = "C2EG cGEC|D2FA dAFD|E2GB eBGE|F2AG FEDB,|C2EG cGEC|D2FA dAFD|EGcG FDB,D|C2E2 C4|]";

}  // namespace

TEST_CASE("beside: the same tune in another key has the same bars", "[analysis][beside]") {
    const auto beside =
        lay_beside(outlined(kReel),
                   outlined("D2FA dAFD|E2GB eBGE|F2Ac fcAF|G2BA GFEC|D2FA dAFD|E2GB eBGE|FAdA GECE|D2F2 D4|]", "D"));
    CHECK(beside.semitones == -2);
    CHECK_FALSE(beside.in_other_mode);
    REQUIRE(beside.bars.size() == 8);
    for (std::uint32_t bar = 0; bar < 8; ++bar) CHECK(beside.bars[bar] == BarBeside{{bar}, {bar}, true});
}

TEST_CASE("beside: bars that differ, and one too many", "[analysis][beside]") {
    const auto beside = lay_beside(
        outlined(kReel),
        outlined("C2EG cGEC|D2FA d2FD|E2GB eBGE|B,2DF GFDB,|F2AG FEDB,|C2EG cGEC|D2FA dAFD|EGcG FDB,D|C2E2 C4|]"));
    REQUIRE(beside.bars.size() == 9);
    CHECK(beside.bars[0] == BarBeside{{0}, {0}, true});
    CHECK(beside.bars[1] == BarBeside{{1}, {1}, false});
    CHECK(beside.bars[3] == BarBeside{{}, {3}, false});
    CHECK(beside.bars[4] == BarBeside{{3}, {4}, true});
}

TEST_CASE("beside: another mode, half the values, and nothing", "[analysis][beside]") {
    CHECK(lay_beside(outlined(kReel), outlined(kReel, "Cmin")).in_other_mode);
    CHECK(lay_beside(outlined(kReel), outlined(kReel, "Cmin")).semitones == 0);
    for (const BarBeside& bar : lay_beside(outlined(kReel), outlined(kReel, "C", "M:2/4\nL:1/16\n")).bars)
        CHECK(bar.is_same);
    CHECK(lay_beside({}, {}).bars.empty());
    CHECK(lay_beside(outlined(kReel), {}).bars.size() == 8);
}

TEST_CASE("beside: two narrow bars stand beside the wide one with the same music", "[analysis][beside]") {
    const std::string polka = "C2EG|cGEC|D2FA|dAFD|E2GB|eBGE|F2AG|FEDB,|C2EG|cGEC|D2FA|dAFD|EGcG|FDB,D|C2E2|C4|]";
    const std::string varied = "C2EG|cGEC|D2FA|dAFD|E2GB|eBBE|F2AG|FEDB,|C2EG|cGEC|D2FA|dAFD|EGcG|FDB,D|C2E2|C4|]";
    const auto beside = lay_beside(outlined(kReel), outlined(polka, "C", "M:2/4\n"));
    REQUIRE(beside.bars.size() == 8);
    for (std::uint32_t bar = 0; bar < 8; ++bar)
        CHECK(beside.bars[bar] == BarBeside{{bar}, {2 * bar, 2 * bar + 1}, true});
    // The other way round, one bar varied, and one left out.
    const auto turned = lay_beside(outlined(varied, "C", "M:2/4\n"), outlined(kReel));
    REQUIRE(turned.bars.size() == 8);
    for (std::uint32_t bar = 0; bar < 8; ++bar)
        CHECK(turned.bars[bar] == BarBeside{{2 * bar, 2 * bar + 1}, {bar}, bar != 2});
    const auto lacking =
        lay_beside(outlined(kReel), outlined(polka.substr(0, polka.find("EGcG")) + "C2E2|C4|]", "C", "M:2/4\n"));
    REQUIRE(lacking.bars.size() == 8);
    CHECK(lacking.bars[5] == BarBeside{{5}, {10, 11}, true});
    CHECK(lacking.bars[6] == BarBeside{{6}, {}, false});
    CHECK(lacking.bars[7] == BarBeside{{7}, {12, 13}, true});
}
