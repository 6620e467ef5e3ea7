#include "people/last_go.h"

#include <catch2/catch.hpp>

namespace {

using people::Entry;

Entry said(std::int64_t rank, people::Words words, std::optional<people::Seal> with = std::nullopt) {
    return {rank, rank, "seal " + std::to_string(rank), false, {std::move(words), std::nullopt, std::move(with)}};
}

people::Words tag_given(const char* text) { return people::TagGiven{{tune::TuneId{1}, std::nullopt, "Lamp"}, text}; }

std::vector<std::int64_t> ranks(const std::vector<const Entry*>& entries) {
    std::vector<std::int64_t> all;
    for (const Entry* entry : entries) all.push_back(entry->rank);
    return all;
}

}  // namespace

TEST_CASE("last go: all that was said in it, in order", "[people][last-go]") {
    const std::vector<Entry> entries{said(1, tag_given("a")), said(2, tag_given("b")),
                                     said(3, tag_given("c"), "seal 2")};
    CHECK(ranks(people::last_go(entries)) == std::vector<std::int64_t>{2, 3});
    CHECK(people::last_go({}).empty());
}

TEST_CASE("last go: what was taken back is passed over, and what was given again is not", "[people][last-go]") {
    std::vector<Entry> entries{said(1, tag_given("a")), said(2, tag_given("b")),
                               said(3, people::TakenBack{{"seal 2"}})};
    CHECK(ranks(people::last_go(entries)) == std::vector<std::int64_t>{1});
    CHECK(people::undone_in(entries) == std::unordered_set<people::Seal>{"seal 2"});
    entries.push_back(said(4, people::TakenBack{{"seal 3"}}));
    CHECK(ranks(people::last_go(entries)) == std::vector<std::int64_t>{2});
    CHECK(people::undone_in(entries) == std::unordered_set<people::Seal>{"seal 3"});
}

TEST_CASE("last go: a player who was erased stays so", "[people][last-go]") {
    const std::vector<Entry> entries{said(1, tag_given("a")), said(2, people::Erased{{"seal 0"}}),
                                     said(3, people::PlayerGone{"seal 0"}, "seal 2")};
    CHECK(ranks(people::last_go(entries)) == std::vector<std::int64_t>{1});
}

TEST_CASE("last go: of what is meant alone", "[people][last-go]") {
    const std::vector<Entry> entries{said(1, tag_given("a")), said(2, people::TermGone{"mon"}),
                                     said(3, people::TermGone{"tue"}, "seal 2"), said(4, tag_given("b"))};
    const auto is_term = [](const people::Words& words) { return std::holds_alternative<people::TermGone>(words); };
    CHECK(ranks(people::last_go(entries, is_term)) == std::vector<std::int64_t>{2, 3});
}
