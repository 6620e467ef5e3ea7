#include "analysis/find_heard.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>
#include <string>
#include <vector>

#include "../abc/written.h"
#include "analysis/outline_of.h"

using analysis::Begins;
using analysis::better;
using analysis::Heard;
using analysis::Hit;
using analysis::read_heard;

namespace {

tune::Outline heard_in(const std::string& music) {
    return analysis::outline_of(written::AbcFile(written::tune_of(music)).only().melody);
}

std::optional<Hit> find(const std::string& phrase, const std::string& music, bool at_start = false) {
    return analysis::find_heard(read_heard(phrase), heard_in(music), at_start);
}

// The fewest changes from `phrase` to a stretch of `text` that begins at `from`, which it may not skip at no cost.
int fewest_errors(const std::vector<int>& phrase, const std::vector<int>& text, std::size_t from) {
    std::vector<std::vector<int>> cost(phrase.size() + 1, std::vector<int>(text.size() - from + 1));
    for (std::size_t i = 0; i <= phrase.size(); ++i)
        for (std::size_t j = 0; j <= text.size() - from; ++j) {
            if (i == 0 || j == 0)
                cost[i][j] = static_cast<int>(i + j);
            else
                cost[i][j] = std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1,
                                       cost[i - 1][j - 1] + (phrase[i - 1] == text[from + j - 1] ? 0 : 1)});
        }
    return *std::min_element(cost[phrase.size()].begin(), cost[phrase.size()].end());
}

// Walks that stay in a few pitch classes, so that phrases do turn up.
std::vector<int> random_walk(std::mt19937& random, std::size_t length, unsigned spread) {
    std::vector<int> walk;
    while (walk.size() < length) {
        const int next = static_cast<int>(random() % spread);
        if (walk.empty() || walk.back() != next) walk.push_back(next);
    }
    return walk;
}

}  // namespace

TEST_CASE("find_heard: found in any key and octave, held or repeated", "[analysis][find_heard]") {
    const std::string music = "c2BA G2EG|A2GF E2CE|DEFG A2Bc|";
    const auto hit = find("D E F G A B", music);
    REQUIRE(hit.has_value());
    CHECK(*hit == Hit{0, Begins::within, 0, 3});
    CHECK(hit->is_exact());
    CHECK(find("E F# G A B C#5", music) == Hit{0, Begins::within, -2, 3});
    CHECK(find("D, D e f' F G A B", music) == Hit{0, Begins::within, 0, 3});
    CHECK(find("C D E F# G A", music).value_or(Hit{9, Begins::within, 0, 0}).errors == 1);
    CHECK_FALSE(find("D ^D E F ^F", music).has_value());
}

TEST_CASE("find_heard: wrong notes are told, and only as many as the phrase allows", "[analysis][find_heard]") {
    const std::string music = "CEGc BGAF|EDCE FAGB|";
    CHECK(find("C E G c B G", music)->errors == 0);
    CHECK(find("C E A c B G", music)->errors == 1);     // changed
    CHECK(find("C E G c G A F", music)->errors == 1);   // left out
    CHECK(find("C E G c ^c B G", music)->errors == 1);  // put in
    CHECK_FALSE(find("C E A c B", music).has_value());  // five notes allow none
    CHECK_FALSE(find("C ^F G ^d B G", music).has_value());
}

TEST_CASE("find_heard: where it begins", "[analysis][find_heard]") {
    const std::string music = "GF|EDCE FAGB|cGEC D4:|:GA|BAGF EDCB,|CEGc c4:|";
    CHECK(find("E D C E F A", music) == Hit{0, Begins::tune, 0, 1});
    CHECK(find("G F E D C E F A", music) == Hit{0, Begins::tune, 0, 0});
    CHECK(find("D C E F A", music) == Hit{0, Begins::within, 0, 1});
    CHECK(find("B A G F E D C B", music) == Hit{0, Begins::part, 0, 3});
    CHECK(find("G A B A G F E", music) == Hit{0, Begins::part, 0, 2});
    CHECK(find("E D C E F A", music, true).has_value());
    CHECK_FALSE(find("D C E F A", music, true).has_value());
    CHECK_FALSE(find("B A G F E D C B", music, true).has_value());
}

TEST_CASE("find_heard: the same as comparing everywhere", "[analysis][find_heard]") {
    std::mt19937 random(5);
    int found = 0, refused = 0;
    for (int round = 0; round < 4000; ++round) {
        const auto spread = static_cast<unsigned>(4 + random() % 9);
        const std::vector<int> text = random_walk(random, 4 + random() % 40, spread);
        std::vector<int> phrase = random_walk(random, 3 + random() % (round % 10 == 0 ? 62 : 12), spread);
        if (round % 2 == 0 &&
            phrase.size() <= text.size()) {  // a stretch of the tune in another key, with a wrong note
            const std::size_t from = random() % (text.size() - phrase.size() + 1);
            for (std::size_t note = 0; note < phrase.size(); ++note) phrase[note] = (text[from + note] + 7) % 12;
            phrase[random() % phrase.size()] = static_cast<int>(random() % 12);
            phrase.erase(std::unique(phrase.begin(), phrase.end()), phrase.end());
            if (phrase.size() < analysis::kFewestHeard) continue;
        }
        tune::Outline outline;
        outline.bars.push_back({0, 13440, 1, 0, false, true, false, false});
        for (std::size_t at = 0; at < text.size(); ++at) {
            if (at > 0 && at % 5 == 0)
                outline.bars.push_back({static_cast<std::uint32_t>(at), 13440, static_cast<std::int32_t>(at / 5) + 1, 0,
                                        false, at % 20 == 0, false, false});
            outline.notes.push_back(
                {static_cast<std::uint32_t>(at % 5 * 1680), static_cast<std::uint8_t>(60 + text[at])});
        }
        Heard heard;
        for (const int note : phrase) heard.pitch_classes.push_back(static_cast<std::uint8_t>(note));
        const bool at_start = round % 4 == 0;
        std::optional<Hit> best;
        for (int key = -5; key <= 6; ++key) {
            std::vector<int> moved = phrase;
            for (int& note : moved) note = (note + key + 12) % 12;
            for (std::size_t from = 0; from < text.size(); ++from) {
                const int errors = fewest_errors(moved, text, from);
                const Begins begins = from == 0 ? Begins::tune : from % 20 == 0 ? Begins::part : Begins::within;
                const Hit hit{errors, begins, key, static_cast<int>(from / 5) + 1};
                if (errors > analysis::errors_allowed(phrase.size()) || (at_start && from > 0)) continue;
                if (!best || better(hit, *best)) best = hit;
            }
        }
        (best ? found : refused) += 1;
        REQUIRE(analysis::find_heard(heard, outline, at_start) == best);
    }
    CHECK(found > 500);
    CHECK(refused > 500);
}

TEST_CASE("find_heard: the better hit", "[analysis][find_heard]") {
    const std::vector<Hit> ranked{{0, Begins::tune, 0, 1},    {0, Begins::tune, 5, 1},   {0, Begins::part, 0, 9},
                                  {0, Begins::within, 0, 2},  {0, Begins::within, 0, 3}, {0, Begins::within, 2, 1},
                                  {0, Begins::within, -2, 1}, {0, Begins::within, 3, 1}, {1, Begins::tune, 0, 1}};
    for (std::size_t a = 0; a < ranked.size(); ++a)
        for (std::size_t b = 0; b < ranked.size(); ++b) CHECK(better(ranked[a], ranked[b]) == (a < b));
}

TEST_CASE("find_heard: an empty outline holds nothing", "[analysis][find_heard]") {
    CHECK_FALSE(analysis::find_heard(read_heard("GAB"), tune::Outline{}, false).has_value());
}

TEST_CASE("find_heard: errors allowed leave a piece of two notes whole", "[analysis][find_heard]") {
    for (std::size_t notes = analysis::kFewestHeard; notes <= analysis::kMostHeard; ++notes)
        CHECK(notes / static_cast<std::size_t>(analysis::errors_allowed(notes) + 1) >= 2);
}
