#include "analysis/kinship.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <chrono>
#include <random>
#include <string>

#include "../abc/written.h"
#include "analysis/outline_of.h"

using analysis::compare;
using analysis::contour_of;
using analysis::kProbableKin;

namespace {

analysis::Contour contour(const std::string& music, const std::string& fields = "", const std::string& key = "C") {
    return contour_of(analysis::outline_of(written::AbcFile(written::tune_of(music, fields, key)).only().melody));
}

double likeness(const std::string& a, const std::string& b) { return compare(contour(a), contour(b)); }

// Two invented parts of eight bars.
const std::string kFirst = "C2EG cGEC|D2FA dAFD|E2GB eBGE|F2AG FEDB,|C2EG cGEC|D2FA dAFD|EGcG FDB,D|C2E2 C4";
const std::string kSecond = "c2Bc dcBA|G2AB cBAG|F2GA BAGF|E2D2 C2DE|c2Bc dcBA|G2AB cBAG|FAGF EDCB,|C2E2 C4";
const std::string kTune = kFirst + "||" + kSecond + "|]";

tune::Outline random_outline(std::mt19937& random, std::uint32_t bars) {
    constexpr std::array<int, 7> kScale{0, 2, 4, 5, 7, 9, 11};
    tune::Outline outline;
    int place = 7;
    for (std::uint32_t bar = 0; bar < bars; ++bar) {
        outline.bars.push_back({static_cast<std::uint32_t>(outline.notes.size()), 13440,
                                static_cast<std::int32_t>(bar) + 1, 0, false, bar == 0, false, false});
        for (std::uint32_t note = 0; note < 8; ++note) {
            place = std::clamp(place + static_cast<int>(random() % 5) - 2, 0, 13);
            outline.notes.push_back(
                {note * 1680,
                 static_cast<std::uint8_t>(60 + place / 7 * 12 + kScale[static_cast<std::size_t>(place % 7)])});
        }
    }
    return outline;
}

}  // namespace

TEST_CASE("kinship: what does not count", "[analysis][kinship]") {
    CHECK(likeness(kTune, kTune) == Approx(1));
    CHECK(likeness(kTune, "|:" + kFirst + ":|:" + kSecond + ":|") == Approx(1));
    CHECK(likeness("E2|C2EG cGEC|D2FA dAFD|E2GB eBGE|F2AG F4|", "C2EG cGEC|D2FA dAFD|E2GB eBGE|F2AG F4|") == Approx(1));
    CHECK(likeness("C2EG cGEC|D2FA dAFD|E2GB eBGE|F2AG F4|", "CCEG c2EC|D2F>A d2FD|E>EGB eBGE|FFAG FFFF|") > 0.8);
}

TEST_CASE("kinship: any transposition is as like as can be", "[analysis][kinship]") {
    std::mt19937 random(6);
    for (int round = 0; round < 100; ++round) {
        const tune::Outline outline = random_outline(random, 16);
        tune::Outline moved = outline;
        for (auto& note : moved.notes) note.midi = static_cast<std::uint8_t>(note.midi - 20 + round % 40);
        CHECK(compare(contour_of(outline), contour_of(moved)) == Approx(1));
    }
}

TEST_CASE("kinship: a few notes changed, filled in or held", "[analysis][kinship]") {
    const std::string varied =
        "C2EG cGEG|D2FA d2FD|E/F/GBG eBGE|F2AG FEDB,|CDEG c2EC|D2F2 dAFD|EGcG FDB,D|CCEE C4||"
        "c2Bc dBAB|G2AB c2AG|FEGA BAGF|E2D2 C2DE|c2B/c/d dcBA|G2AB cBAG|FAGF EDCB,|C2E2 C4|]";
    CHECK(likeness(kTune, varied) >= kProbableKin);
    CHECK(likeness(kTune, varied) < 1);
}

TEST_CASE("kinship: a part missing, or a fragment", "[analysis][kinship]") {
    CHECK(likeness(kTune, kFirst + "|]") >= kProbableKin);
    CHECK(likeness(kTune, kSecond + "|]") >= kProbableKin);
    CHECK(likeness(kTune, "E2GB eBGE|F2AG FEDB,|C2EG cGEC|D2FA dAFD|") >= kProbableKin);
}

TEST_CASE("kinship: a shared ending makes no kin", "[analysis][kinship]") {
    const std::string other = "G2GA BAGE|DEGA B2AG|E2ED EGAB|c2BA G2D2|G2GA BAGE|DEGA B2AG|FAGF EDCB,|C2E2 C4|]";
    CHECK(likeness(kTune, other) < kProbableKin);
}

TEST_CASE("kinship: different melodies are not alike", "[analysis][kinship]") {
    std::mt19937 random(7);
    std::vector<analysis::Contour> contours;
    for (int tune = 0; tune < 60; ++tune)
        contours.push_back(contour_of(random_outline(random, tune % 2 == 0 ? 16 : 8)));
    for (std::size_t a = 0; a < contours.size(); ++a)
        for (std::size_t b = 0; b < a; ++b) {
            CHECK(compare(contours[a], contours[b]) < kProbableKin);
            CHECK(compare(contours[a], contours[b]) == compare(contours[b], contours[a]));
        }
}

TEST_CASE("kinship: the difference weighs more in a short tune", "[analysis][kinship]") {
    const std::string four = "C2EG cGEC|D2FA dAFD|E2GB eBGE|F2AG F4|";
    const std::string other = "C2EG cGEC|D2FA dAFD|^G2^c^d ^f^d^c^G|F2AG F4|";
    CHECK(likeness(four, other) > 0);
    CHECK(likeness(four, other) <
          likeness("C2EG cGEC|A2cB AGFE|" + four + kSecond, "C2EG cGEC|A2cB AGFE|" + other + kSecond));
    CHECK(likeness("C2EG|D2FA|", "C2EG|D2FG|") < kProbableKin);
}

TEST_CASE("kinship: the same steps in another mode", "[analysis][kinship]") {
    const std::string reel = "E2AB cBAG|E2AB cdef|g2fe dcBA|GABG E2D2|E2AB cBAG|E2AB cdef|gfed cBAG|A2c2 A4|]";
    const auto in = [&](const std::string& key) { return contour(reel, "", key); };
    CHECK(compare(in("Amin"), in("A")) >= kProbableKin);
    CHECK(compare(in("Amin"), in("A")) < 1);
    CHECK(compare(in("Amix"), in("Ador")) >= kProbableKin);
    CHECK(compare(in("Amin"), contour(kTune)) < analysis::kPossibleKin);
}

TEST_CASE("kinship: parts in another order", "[analysis][kinship]") {
    CHECK(likeness(kTune, kSecond + "||" + kFirst + "|]") >= kProbableKin);
}

TEST_CASE("kinship: two bars for one, and notes of half the length", "[analysis][kinship]") {
    const std::string polka = "C2EG|cGEC|D2FA|dAFD|E2GB|eBGE|F2AG|FEDB,|C2EG|cGEC|D2FA|dAFD|EGcG|FDB,D|C2E2|C4||";
    const std::string reel = "C2EG cGEC|D2FA dAFD|E2GB eBGE|F2AG FEDB,|C2EG cGEC|D2FA dAFD|EGcG FDB,D|C2E2 C4||";
    CHECK(compare(contour(polka, "M:2/4\nL:1/8\n"), contour(reel, "M:4/4\nL:1/8\n")) >= kProbableKin);
    CHECK(compare(contour(reel, "M:4/4\nL:1/8\n"), contour(polka, "M:2/4\nL:1/8\n")) >= kProbableKin);
    CHECK(compare(contour(reel, "M:2/4\nL:1/16\n"), contour(reel, "M:4/4\nL:1/8\n")) == Approx(1));
    const std::string slide = "C2E GEC D2F AFD|E2G BGE F2A GFE|C2E GEC D2F AFD|EGc GFD C3 C3||";
    const std::string jig = "C2E GEC|D2F AFD|E2G BGE|F2A GFE|C2E GEC|D2F AFD|EGc GFD|C3 C3||";
    CHECK(compare(contour(jig, "M:6/8\nL:1/8\n"), contour(slide, "M:12/8\nL:1/8\n")) >= kProbableKin);
}

TEST_CASE("kinship: nothing and the endless", "[analysis][kinship]") {
    CHECK(likeness("z8|", kTune) == 0);
    CHECK(compare({}, {}) == 0);
    std::mt19937 random(8);
    const analysis::Contour huge = contour_of(random_outline(random, 20000));
    CHECK(huge.bars.size() == analysis::kMostBarsCompared);
    const auto start = std::chrono::steady_clock::now();
    CHECK(compare(huge, huge) == Approx(1));
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(1));
}
