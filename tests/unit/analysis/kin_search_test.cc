#include "analysis/kin_search.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <random>
#include <set>
#include <utility>
#include <vector>

using analysis::KinPair;
using analysis::KinSearch;
using tune::Outline;

namespace {

Outline random_outline(std::mt19937& random) {
    constexpr std::array<int, 7> kScale{0, 2, 4, 5, 7, 9, 11};
    Outline outline;
    int place = 7;
    for (std::uint32_t bar = 0; bar < 16; ++bar) {
        outline.bars.push_back({bar * 8, 13440, static_cast<std::int32_t>(bar) + 1, 0, false, bar == 0, false, false});
        for (std::uint32_t note = 0; note < 8; ++note) {
            place = std::clamp(place + static_cast<int>(random() % 5) - 2, 0, 13);
            outline.notes.push_back(
                {note * 1680,
                 static_cast<std::uint8_t>(60 + place / 7 * 12 + kScale[static_cast<std::size_t>(place % 7)])});
        }
    }
    return outline;
}

Outline moved(Outline outline, int semitones) {
    for (auto& note : outline.notes) note.midi = static_cast<std::uint8_t>(note.midi + semitones);
    return outline;
}

// One note in twelve made another.
Outline varied(Outline outline, std::mt19937& random) {
    for (auto& note : outline.notes)
        if (random() % 12 == 0) note.midi = static_cast<std::uint8_t>(note.midi + 1 + random() % 4);
    return outline;
}

}  // namespace

TEST_CASE("kin_search: pairs are those that comparing all with all finds", "[analysis][kin_search]") {
    std::mt19937 random(9);
    std::vector<Outline> outlines;
    for (int tune = 0; tune < 150; ++tune) {
        outlines.push_back(random_outline(random));
        if (tune % 3 == 0) outlines.push_back(moved(varied(outlines.back(), random), tune % 11 - 5));
    }
    KinSearch search;
    for (const Outline& outline : outlines) search.add(outline);
    CHECK(search.size() == 200);
    std::vector<KinPair> expected;
    for (std::uint32_t first = 0; first < outlines.size(); ++first)
        for (std::uint32_t second = first + 1; second < outlines.size(); ++second) {
            const double likeness =
                compare(analysis::contour_of(outlines[first]), analysis::contour_of(outlines[second]));
            if (likeness >= analysis::kProbableKin) expected.push_back({first, second, likeness, false});
        }
    CHECK(expected.size() >= 50);
    CHECK(search.find_pairs() == expected);
}

TEST_CASE("kin_search: of one class the first stands for all", "[analysis][kin_search]") {
    std::mt19937 random(10);
    const Outline tune = random_outline(random), other = random_outline(random), variant = varied(tune, random);
    KinSearch search;
    for (const Outline& outline : {tune, other, moved(tune, 5), variant, moved(tune, -7)}) search.add(outline);
    const std::vector<KinPair> pairs = search.find_pairs();
    REQUIRE(pairs.size() == 3);
    CHECK(pairs[0] == KinPair{0, 2, 1, true});
    CHECK((pairs[1].first == 0 && pairs[1].second == 3 && !pairs[1].is_exact));
    CHECK(pairs[2] == KinPair{0, 4, 1, true});
}

TEST_CASE("kin_search: a thousand copies cost a thousand pairs", "[analysis][kin_search]") {
    std::mt19937 random(11);
    const Outline tune = random_outline(random);
    KinSearch search;
    for (int copy = 0; copy < 1001; ++copy) search.add(moved(tune, copy % 12));
    CHECK(search.find_pairs().size() == 1000);
}

TEST_CASE("kin_search: a bar that too many share is not followed", "[analysis][kin_search]") {
    // Tunes of the same eight bars and eight of their own: each pair is alike, but the shared bars are in too many to
    // tell.
    std::mt19937 random(12);
    const Outline common = random_outline(random);
    const auto pairs_among = [&](std::size_t tunes) {
        KinSearch search;
        for (std::size_t tune = 0; tune < tunes; ++tune) {
            Outline outline = random_outline(random);
            std::copy(common.notes.begin(), common.notes.begin() + 96, outline.notes.begin());
            search.add(outline);
        }
        return search.find_pairs().size();
    };
    CHECK(pairs_among(20) == 190);
    CHECK(pairs_among(analysis::kMostSharing + 1) < 190);
}

TEST_CASE("kin_search: the kin of one, likest first", "[analysis][kin_search]") {
    std::mt19937 random(13);
    const Outline tune = random_outline(random), variant = varied(tune, random);
    KinSearch search;
    for (const Outline& outline : {random_outline(random), variant, random_outline(random), moved(tune, 3)})
        search.add(outline);
    const auto kin = search.find_kin_of(tune);
    REQUIRE(kin.size() == 2);
    CHECK(kin[0] == analysis::Kin{3, 1, true});
    CHECK(kin[1].setting == 1);
    CHECK_FALSE(kin[1].is_exact);
    CHECK(kin[1].likeness == compare(analysis::contour_of(tune), analysis::contour_of(variant)));
    CHECK(KinSearch().find_kin_of(tune).empty());
    CHECK(KinSearch().find_pairs().empty());
}
