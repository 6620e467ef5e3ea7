#include "tune/spelling_distance.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

using tune::LetterCounts;
using tune::letters_of;
using tune::Spelling;

namespace {

int distance(std::string_view one, std::string_view other) {
    return Spelling(letters_of(one)).distance_to(letters_of(other));
}

// The definition, from the ends: the plain recursion, kept in a table.
int plainly(const std::u32string& one, const std::u32string& other) {
    std::vector<std::vector<int>> table(one.size() + 1, std::vector<int>(other.size() + 1));
    for (std::size_t i = 0; i <= one.size(); ++i)
        for (std::size_t j = 0; j <= other.size(); ++j) {
            if (i == 0 || j == 0) {
                table[i][j] = static_cast<int>(i + j);
                continue;
            }
            int least = std::min(table[i - 1][j], table[i][j - 1]) + 1;
            least = std::min(least, table[i - 1][j - 1] + (one[i - 1] == other[j - 1] ? 0 : 1));
            if (i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1])
                least = std::min(least, table[i - 2][j - 2] + 1);
            table[i][j] = least;
        }
    return table[one.size()][other.size()];
}

}  // namespace

TEST_CASE("spelling distance: each of the four mistakes counts one", "[tune][spelling]") {
    CHECK(distance("lantern", "lantern") == 0);
    CHECK(distance("lantern", "lentern") == 1);
    CHECK(distance("lantern", "lanern") == 1);
    CHECK(distance("lantern", "lanntern") == 1);
    CHECK(distance("lantern", "latnern") == 1);
    CHECK(distance("", "oar") == 3);
    CHECK(distance("oar", "") == 3);
    // No place is touched twice: exchanging and then putting in between is three. Source: the standing example of what
    // parts this distance from the unrestricted one, from memory.
    CHECK(distance("ca", "abc") == 3);
}

TEST_CASE("spelling distance: letters are code points", "[tune][spelling]") {
    CHECK(distance("漢字", "漢") == 1);
    CHECK(distance("øre", "ære") == 1);
    CHECK(letters_of("aøx").size() == 3);
    CHECK(letters_of("\xC3").size() == 1);
}

TEST_CASE("spelling distance: the fast way and the plain table agree", "[tune][spelling]") {
    std::mt19937 random(1964);
    const std::u32string alphabet = U"abcød ";
    const auto text = [&](std::size_t most) {
        std::u32string made;
        for (std::size_t left = random() % (most + 1); left > 0; --left) made += alphabet[random() % alphabet.size()];
        return made;
    };
    for (int turn = 0; turn < 4000; ++turn) {
        const std::size_t most = turn % 10 == 0 ? 90 : turn % 3 == 0 ? 64 : 8;
        const std::u32string one = text(most);
        const std::u32string other = text(most);
        const int expected = plainly(one, other);
        REQUIRE(Spelling(one).distance_to(other) == expected);
        REQUIRE(LetterCounts(one).least_distance(LetterCounts(other)) <= expected);
    }
}
