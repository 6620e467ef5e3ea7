#include "library/settings_matched.h"

#include <catch2/catch.hpp>

using library::Identity;
using Matches = std::vector<std::optional<std::size_t>>;

namespace {

Identity known_as(const char* number, const char* title, std::uint64_t melody, bool gone = false) {
    return {*number != '\0' ? std::optional<std::string>(number) : std::nullopt,
            *title != '\0' ? std::optional<std::string>(title) : std::nullopt, melody, melody != 0, gone};
}

Matches matched(std::vector<Identity> stored, std::vector<Identity> incoming) {
    return library::match_settings(stored, incoming);
}

}  // namespace

TEST_CASE("identity: nothing changed", "[library][identity]") {
    CHECK(matched({known_as("1", "lamp", 11), known_as("2", "rope", 22)},
                  {known_as("1", "lamp", 11), known_as("2", "rope", 22)}) == Matches{0, 1});
    CHECK(matched({}, {known_as("1", "lamp", 11)}) == Matches{std::nullopt});
    CHECK(matched({known_as("1", "lamp", 11)}, {}).empty());
}

TEST_CASE("identity: a tune moved within its file", "[library][identity]") {
    CHECK(matched({known_as("1", "lamp", 11), known_as("2", "rope", 22)},
                  {known_as("2", "rope", 22), known_as("1", "lamp", 11)}) == Matches{1, 0});
}

TEST_CASE("identity: renumbered, because a tune was put in before", "[library][identity]") {
    CHECK(matched({known_as("1", "lamp", 11), known_as("2", "rope", 22)},
                  {known_as("1", "net", 33), known_as("2", "lamp", 11), known_as("3", "rope", 22)}) ==
          Matches{std::nullopt, 0, 1});
}

TEST_CASE("identity: title corrected", "[library][identity]") {
    CHECK(matched({known_as("1", "lanp", 11)}, {known_as("1", "lamp", 11)}) == Matches{0});
    CHECK(matched({known_as("1", "lanp", 11)}, {known_as("7", "lamp", 11)}) == Matches{0});  // and renumbered
}

TEST_CASE("identity: note corrected", "[library][identity]") {
    CHECK(matched({known_as("1", "lamp", 11)}, {known_as("1", "lamp", 12)}) == Matches{0});
    CHECK(matched({known_as("1", "lamp", 11)}, {known_as("1", "lantern", 12)}) == Matches{0});  // and title
    CHECK(matched({known_as("1", "lamp", 11)}, {known_as("5", "lamp", 12)}) == Matches{0});     // and renumbered
}

TEST_CASE("identity: note corrected while a new tune took the number", "[library][identity]") {
    CHECK(matched({known_as("1", "lamp", 11)}, {known_as("1", "net", 33), known_as("2", "lamp", 12)}) ==
          Matches{std::nullopt, 0});
}

TEST_CASE("identity: copies", "[library][identity]") {
    // One of two equal incoming ones is the stored one; the other is new.
    CHECK(matched({known_as("1", "lamp", 11)}, {known_as("1", "lamp", 11), known_as("2", "lamp", 11)}) ==
          Matches{0, std::nullopt});
    CHECK(matched({known_as("1", "lamp", 11)}, {known_as("2", "lamp", 11), known_as("1", "lamp", 11)}) ==
          Matches{std::nullopt, 0});
    // One of two equal stored ones was taken out: the one that stayed keeps its own.
    CHECK(matched({known_as("1", "lamp", 11), known_as("2", "lamp", 11)}, {known_as("2", "lamp", 11)}) == Matches{1});
}

TEST_CASE("identity: several tunes of one number", "[library][identity]") {
    CHECK(matched({known_as("1", "lamp", 11), known_as("1", "rope", 22), known_as("1", "net", 33)},
                  {known_as("1", "lamp", 11), known_as("1", "rope", 23), known_as("1", "net", 34)}) ==
          Matches{0, 1, 2});
    CHECK(matched({known_as("1", "lamp", 11), known_as("1", "rope", 22)},
                  {known_as("1", "rope", 23), known_as("1", "lamp", 12)}) == Matches{1, 0});
}

TEST_CASE("identity: gone ones come back, but present ones go first", "[library][identity]") {
    CHECK(matched({known_as("1", "lamp", 11, true)}, {known_as("1", "lamp", 11)}) == Matches{0});
    CHECK(matched({known_as("1", "lamp", 11, true), known_as("1", "lamp", 11)}, {known_as("1", "lamp", 11)}) ==
          Matches{1});
    CHECK(matched({known_as("1", "lamp", 11, true), known_as("1", "rope", 22)}, {known_as("1", "net", 33)}) ==
          Matches{1});
}

TEST_CASE("identity: an empty melody is no sign of anything", "[library][identity]") {
    CHECK(matched({known_as("1", "lamp", 0)}, {known_as("2", "rope", 0)}) == Matches{std::nullopt});
    CHECK(matched({known_as("1", "lamp", 0)}, {known_as("1", "rope", 0)}) == Matches{0});
    CHECK(matched({known_as("", "lamp", 0)}, {known_as("", "lamp", 0)}) == Matches{0});
}

TEST_CASE("identity: without number or title the melody decides", "[library][identity]") {
    CHECK(matched({known_as("", "", 11), known_as("", "", 22)}, {known_as("", "", 22), known_as("", "", 11)}) ==
          Matches{1, 0});
    CHECK(matched({known_as("", "", 11)}, {known_as("", "", 12)}) == Matches{std::nullopt});
}

TEST_CASE("identity: a title borne by several says less than a number", "[library][identity]") {
    CHECK(matched({known_as("1", "reel", 11), known_as("2", "reel", 22)},
                  {known_as("2", "reel", 23), known_as("3", "reel", 12)}) == Matches{1, 0});
}
