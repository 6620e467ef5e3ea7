#include "analysis/rank_heard.h"

#include <catch2/catch.hpp>
#include <map>
#include <string>
#include <vector>

#include "../abc/written.h"
#include "analysis/outline_of.h"

namespace {

const std::vector<std::string> kTunes{
    "GABc d2ef|g2fe dcBA|GABc d2ef|g2fd G4|",    // 0
    "GABB BABc|d2ef g2fe|dcBA GABB|BABc d4|",    // 1: with notes played again
    "c2ec gcec|f2af dcBA|GABc d2ef|gfed c4|",    // 2: the phrase in the third bar
    "ABcd e2fg|a2gf edcB|ABcd e2fg|a2ge A4|",    // 3: another mode of 0, a tone higher
    "E2EE F2FF|G2GG A2AA|B2BB A2AA|G2GG F2FF|",  // 4
};

std::vector<std::int64_t> ranked(const std::string& phrase, bool at_start = false) {
    std::map<std::int64_t, tune::Outline> outlines;
    analysis::HeardRanking ranking(phrase, at_start);
    for (std::size_t tune = 0; tune < kTunes.size(); ++tune) {
        const auto id = static_cast<std::int64_t>(tune);
        outlines[id] = analysis::outline_of(written::AbcFile(written::tune_of(kTunes[tune])).only().melody);
        ranking.look_at(id, outlines[id]);
    }
    std::vector<std::int64_t> ids;
    for (const auto& one : ranking.rank([&](std::int64_t id) { return outlines.at(id); })) ids.push_back(one.setting);
    return ids;
}

}  // namespace

TEST_CASE("rank_heard: the beginning of a tune before its middle", "[analysis][rank_heard]") {
    const auto found = ranked("G A B c d e f g");
    REQUIRE(found.size() >= 2);
    CHECK(found[0] == 0);
    CHECK(found[1] == 2);
}

TEST_CASE("rank_heard: repeated notes break ties", "[analysis][rank_heard]") {
    CHECK(ranked("G A B B B A B c").front() == 1);
    CHECK(ranked("E E E F F F G G G").front() == 4);
}

TEST_CASE("rank_heard: two wrong notes among eight", "[analysis][rank_heard]") {
    CHECK(ranked("G A c c d e f a").front() == 0);
}

TEST_CASE("rank_heard: at the start alone, and faults", "[analysis][rank_heard]") {
    CHECK(ranked("c e c g c e c f", true) == std::vector<std::int64_t>{2});
    CHECK_THROWS_AS(ranked("G A"), analysis::HeardFault);
}
