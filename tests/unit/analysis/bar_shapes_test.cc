#include "analysis/bar_shapes.h"

#include <catch2/catch.hpp>
#include <set>
#include <string>

#include "../abc/written.h"

using written::AbcFile;
using written::tune_of;

namespace {

std::string bars(const std::string& music) {
    const analysis::BarCount count = analysis::count_bars(AbcFile(tune_of(music)).only().melody);
    return std::to_string(count.written) + " written, " + std::to_string(count.different) + " different";
}

std::uint64_t hash(const std::string& music, const std::string& key = "C", const std::string& fields = "") {
    return analysis::hash_melody(AbcFile(tune_of(music, fields, key)).only().melody);
}

}  // namespace

TEST_CASE("bars: a pick-up is no bar of its own, an ending is one, empty ones are none", "[analysis][bar_shapes]") {
    CHECK(bars("G8|A8|B8|c8|") == "4 written, 4 different");
    CHECK(bars("G2|A8|B6:|") == "2 written, 2 different");
    CHECK(bars("|:G8|1A8:|2B8|]") == "3 written, 3 different");
    CHECK(bars("||G8||A8|]") == "2 written, 2 different");
    CHECK(bars("") == "0 written, 0 different");
}

TEST_CASE("bars: a rest of four bars counts four", "[analysis][bar_shapes]") {
    CHECK(bars("G8|Z4|G8|").substr(0, 9) == "6 written");
    CHECK(bars("Z|Z|") == "2 written, 1 different");
}

TEST_CASE("bars: bars that sound alike are one", "[analysis][bar_shapes]") {
    CHECK(bars("GABc GABc|GABc GABc|") == "2 written, 1 different");
    CHECK(bars("G2A2 B4|\"Am\"G2 {c}A2 !trill!B4|(G2A2) B4|") == "3 written, 1 different");
    CHECK(bars("^F8|_G8|") == "2 written, 1 different");
    CHECK(bars("G2A2 B4|G2A2 B3z|") == "2 written, 2 different");
    CHECK(bars("G2A2 B4|G2B2 A4|") == "2 written, 2 different");
    CHECK(bars("G8|g8|") == "2 written, 2 different");
    CHECK(bars("G8-|G8|") == "2 written, 2 different");
    CHECK(bars("[CE]8|C4E4|") == "2 written, 2 different");
}

TEST_CASE("melody hash: copies of one setting are equal, however they are written", "[analysis][bar_shapes]") {
    const std::uint64_t plain = hash("^F2A2 d4|e2^f2 d4|");
    CHECK(hash("F2A2 d4|e2f2 d4|", "D") == plain);
    CHECK(hash("_G2A2 d4|e2_g2 d4|") == plain);
    CHECK(hash("^F2A2|d4||e2^f2|d4|]") == plain);
    CHECK(hash("^F2A2 d4 e2^f2 d4") == plain);
    CHECK(hash("\"D\"^F2{g}A2 !trill!d4|(e2^f2) d4:|") == plain);
    CHECK(hash("^F4A4 d8|e4^f4 d8|", "C", "L:1/16\n") == plain);
    CHECK(hash("^F2A2 d4|\n% a remark\nw:la la\ne2^f2 d4|\n", "C", "M:2/2\nR:reel\n") == plain);
}

TEST_CASE("melody hash: any changed note or length changes it", "[analysis][bar_shapes]") {
    const std::string tune = "GABc dedB|GABc d2e2|";
    std::set<std::uint64_t> hashes{hash(tune)};
    std::size_t variants = 1;
    for (std::size_t at = 0; at < tune.size(); ++at) {
        if (tune[at] < 'A' || tune[at] > 'e') continue;
        for (const std::string sign : {"^", "_"}) {
            std::string changed = tune;
            changed.insert(at, sign);
            hashes.insert(hash(changed));
            ++variants;
        }
        std::string longer = tune;
        longer.insert(at + 1, "3");
        hashes.insert(hash(longer));
        std::string gone = tune;
        gone[at] = 'z';
        hashes.insert(hash(gone));
        std::string octave = tune;
        octave.insert(at + 1, ",");
        hashes.insert(hash(octave));
        variants += 3;
    }
    CHECK(hashes.size() == variants);
}

TEST_CASE("melody hash: order counts", "[analysis][bar_shapes]") {
    CHECK(hash("GA") != hash("AG"));
    CHECK(hash("G2A") != hash("GA2"));
    CHECK(hash("[GA]") != hash("GA"));
    CHECK(hash("G-G") != hash("GG"));
}
