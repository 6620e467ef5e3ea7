#include "analysis/melody_class.h"

#include <catch2/catch.hpp>
#include <random>
#include <string>

#include "../abc/written.h"
#include "analysis/outline_of.h"

using written::AbcFile;
using written::tune_of;

namespace {

std::optional<std::uint64_t> class_of(const std::string& music, const std::string& fields = "",
                                      const std::string& key = "C") {
    return analysis::melody_class(analysis::outline_of(AbcFile(tune_of(music, fields, key)).only().melody));
}

// Invented, four bars.
const std::string kBars = "C2EG cGEC|D2FA dAFD|E2GB eBGE|F2D2 C4";
const std::string kMore = "c2BA GFED|EFGA B2c2|cBAG FEDC|B,2D2 C4";

tune::Outline random_tune(std::mt19937& random) {
    tune::Outline outline;
    for (std::uint32_t bar = 0; bar < 8; ++bar) {
        outline.bars.push_back({static_cast<std::uint32_t>(outline.notes.size()), 13440,
                                static_cast<std::int32_t>(bar) + 1, 0, false, bar == 0, false, false});
        for (std::uint32_t place = 0; place < 8; ++place)
            if (place == 0 || random() % 4 != 0)
                outline.notes.push_back({place * 1680, static_cast<std::uint8_t>(50 + random() % 24)});
    }
    return outline;
}

}  // namespace

TEST_CASE("melody_class: key, octave and spelling do not count", "[analysis][melody_class]") {
    const auto same = class_of(kBars + "|");
    REQUIRE(same.has_value());
    CHECK(class_of("D2FA dAFD|E2GB eBGE|F2Ac fcAF|G2E2 D4|", "", "D") == same);
    CHECK(class_of("c2eg c'gec|d2fa d'afd|e2gb e'bge|f2d2 c4|") == same);
    CHECK(class_of("^B,2EG ^BGE^B,|D2FA dAFD|E2GB eBGE|F2D2 ^B,4|") == same);
}

TEST_CASE("melody_class: any transposition of any melody has its class", "[analysis][melody_class]") {
    std::mt19937 random(3);
    for (int round = 0; round < 200; ++round) {
        const tune::Outline outline = random_tune(random);
        tune::Outline moved = outline;
        const int by = static_cast<int>(random() % 60) - 30;
        for (auto& note : moved.notes) note.midi = static_cast<std::uint8_t>(note.midi + by);
        CHECK(analysis::melody_class(moved) == analysis::melody_class(outline));
    }
}

TEST_CASE("melody_class: no change of a note goes unseen", "[analysis][melody_class]") {
    std::mt19937 random(4);
    for (int round = 0; round < 300; ++round) {
        const tune::Outline outline = random_tune(random);
        tune::Outline changed = outline;
        const std::size_t at = random() % changed.notes.size();
        if (round % 3 == 0)
            changed.notes[at].midi = static_cast<std::uint8_t>(changed.notes[at].midi + 1 + random() % 20);
        else if (round % 3 == 1)
            changed.notes[at].at += 420;
        else {
            changed.notes.erase(changed.notes.begin() + static_cast<std::ptrdiff_t>(at));
            for (auto& bar : changed.bars) bar.first_note -= bar.first_note > at ? 1 : 0;
            if (at == 0 || at + 1 == outline.notes.size()) continue;
        }
        if (round % 3 == 1 && at == 0) continue;  // nothing stands before the first note to time it from
        CHECK(analysis::melody_class(changed) != analysis::melody_class(outline));
    }
}

TEST_CASE("melody_class: unit length and bars of half the length do not count", "[analysis][melody_class]") {
    const auto same = class_of(kBars + "|");
    CHECK(class_of("C2EG cGEC|D2FA dAFD|E2GB eBGE|F2D2 C4|", "M:2/4\nL:1/16\n") == same);
    CHECK(class_of("C2EG|cGEC|D2FA|dAFD|E2GB|eBGE|F2D2|C4|", "M:2/4\n") == same);
    CHECK(class_of("C2EG cGEC|D2FA dAFD|E2GB eBGE|F2D2 C4|", "M:none\n") == same);
}

TEST_CASE("melody_class: pick-ups, grace notes and rests for the end of a note do not count",
          "[analysis][melody_class]") {
    const auto same = class_of(kBars + "|");
    CHECK(class_of("G,2|C2EG cGEC|D2FA dAFD|E2GB eBGE|F2D2 C2|") == same);
    CHECK(class_of("{D}C2EG cGEC|D2{AG}FA dAFD|E2GB eBGE|F2D2 C4|") == same);
    CHECK(class_of("CzEG cGEC|D2FA dAFD|E2GB eBGE|F2D2 Cz3|") == same);
    CHECK(class_of("|:G,2|C2EG cGEC|D2FA dAFD|E2GB eBGE|F2D2 C2:|") == same);
}

TEST_CASE("melody_class: repeats written out or with signs come to the same", "[analysis][melody_class]") {
    const auto same = class_of("|:" + kBars + ":|:" + kMore + ":|");
    REQUIRE(same.has_value());
    CHECK(class_of(kBars + "|" + kBars + "||" + kMore + "|" + kMore + "|]") == same);
    CHECK(class_of(kBars + "||" + kMore + "|]") == same);
    CHECK(class_of(kBars + "||" + kBars + "|]") != same);
    CHECK(class_of(kMore + "||" + kBars + "|]") != same);
    CHECK(class_of("G2|C2EG cGEC|D2FA dAFD|E2GB eBGE|F2D2 C2 G2|C2EG cGEC|D2FA dAFD|E2GB eBGE|F2D2 C2||" + kMore +
                   "|]") == same);
    const std::string three = "C2EG cGEC|D2FA dAFD|E2GB eBGE|";
    CHECK(class_of("|:" + three + "1 F2D2 C4:|2 G2B,2 C4|]") == class_of(three + "F2D2 C4|" + three + "G2B,2 C4|]"));
    CHECK(class_of("|:" + three + "1 F2D2 C4:|2 G2B,2 C4|]") != class_of("|:" + three + "F2D2 C4:|"));
}

TEST_CASE("melody_class: exact means exact", "[analysis][melody_class]") {
    const auto same = class_of(kBars + "|");
    CHECK(class_of("C>CEG cGEC|D2FA dAFD|E2GB eBGE|F2D2 C4|") != same);  // a held note struck twice
    CHECK(class_of("C2E>G cGEC|D2FA dAFD|E2GB eBGE|F2D2 C4|") != same);  // a dotted pair
    CHECK(class_of("C2EG cGEC|D2FA dAFD|E2GB eBGE|F2D2 c4|") != same);   // one note an octave up
    CHECK(class_of("C2_EG cG_EC|D2FA dAFD|E2GB eBGE|F2D2 C4|") != same);
}

TEST_CASE("melody_class: a melody too short to say", "[analysis][melody_class]") {
    CHECK(class_of("CDEFGABc|dcBA|").has_value());
    CHECK_FALSE(class_of("CDEFGABc|dcB|").has_value());
    CHECK_FALSE(class_of("z8|").has_value());
}
