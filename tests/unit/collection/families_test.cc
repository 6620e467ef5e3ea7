#include "collection/families.h"

#include <catch2/catch.hpp>
#include <random>
#include <set>

using collection::heads_of;
using collection::LoneTune;
using collection::Verdict;

namespace {

using Heads = std::vector<std::int64_t>;
const std::vector<LoneTune> kFour{{1, 7}, {3, std::nullopt}, {5, 7}, {8, std::nullopt}};

}  // namespace

TEST_CASE("families: tunes of one class are one, headed by the first", "[collection][families]") {
    CHECK(heads_of(kFour, {}) == Heads{1, 3, 1, 8});
}

TEST_CASE("families: what is said to be the same is one, also by way of others", "[collection][families]") {
    CHECK(heads_of(kFour, std::vector<Verdict>{{{5}, {8}, true}}) == Heads{1, 3, 1, 1});
    CHECK(heads_of(kFour, std::vector<Verdict>{{{3}, {8}, true}}) == Heads{1, 3, 1, 3});
    CHECK(heads_of(kFour, std::vector<Verdict>{{{3}, {8}, true}, {{3}, {5}, true}}) == Heads{1, 1, 1, 1});
}

TEST_CASE("families: what is said not to be the same stays apart, whatever else speaks for it",
          "[collection][families]") {
    CHECK(heads_of(kFour, std::vector<Verdict>{{{1}, {5}, false}}) == Heads{1, 3, 5, 8});
    // 3 was said to be 1, then 5: it stays with 1, for 1 and 5 are apart.
    CHECK(heads_of(kFour, std::vector<Verdict>{{{1}, {5}, false}, {{1}, {3}, true}, {{3}, {5}, true}}) ==
          Heads{1, 1, 5, 8});
    CHECK(heads_of(kFour, std::vector<Verdict>{{{1}, {3}, true}, {{3}, {5}, true}, {{1}, {5}, false}}) ==
          Heads{1, 1, 5, 8});
}

TEST_CASE("families: of one class each joins the first it may", "[collection][families]") {
    const std::vector<LoneTune> alike{{1, 7}, {2, 7}, {3, 7}, {4, 7}};
    CHECK(heads_of(alike, std::vector<Verdict>{{{1}, {2}, false}, {{1}, {4}, false}}) == Heads{1, 2, 1, 2});
}

TEST_CASE("families: words about tunes that are not there say nothing", "[collection][families]") {
    CHECK(heads_of(kFour, std::vector<Verdict>{{{3}, {99}, true}, {{99}, {8}, true}}) == Heads{1, 3, 1, 8});
}

TEST_CASE("families: whatever is said, no two of one family were said to be apart and the head is its least",
          "[collection][families]") {
    std::mt19937 random(1912);
    for (int round = 0; round < 500; ++round) {
        std::vector<LoneTune> tunes;
        for (std::int64_t id = 1; id <= 12; ++id)
            tunes.push_back({id, random() % 3 == 0
                                     ? std::nullopt
                                     : std::optional<std::int64_t>(static_cast<std::int64_t>(random() % 4))});
        std::vector<Verdict> said;
        std::set<std::pair<std::int64_t, std::int64_t>> pairs;
        for (int words = 0; words < 10; ++words) {
            const auto one = static_cast<std::int64_t>(random() % 12 + 1);
            const auto other = static_cast<std::int64_t>(random() % 12 + 1);
            if (one < other && pairs.insert({one, other}).second) said.push_back({{one}, {other}, random() % 2 == 0});
        }
        const Heads heads = heads_of(tunes, said);
        const auto head = [&](std::int64_t id) { return heads[static_cast<std::size_t>(id - 1)]; };
        bool any_apart = false;
        for (const Verdict& words : said) {
            if (!words.is_same) CHECK(head(words.one.value) != head(words.other.value));
            any_apart = any_apart || !words.is_same;
        }
        for (std::int64_t id = 1; id <= 12; ++id) {
            CHECK(head(id) <= id);
            CHECK(head(head(id)) == head(id));
            for (std::int64_t other = 1; other < id && !any_apart; ++other) {
                const auto& a = tunes[static_cast<std::size_t>(id - 1)].melody_class;
                if (a && a == tunes[static_cast<std::size_t>(other - 1)].melody_class) CHECK(head(id) == head(other));
            }
        }
    }
}
