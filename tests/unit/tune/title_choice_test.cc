#include "tune/title_choice.h"

#include <catch2/catch.hpp>

using tune::read_title_choice;
using tune::TitleChoice;
using tune::TitleMatch;

namespace {

TitleMatch question(const std::vector<std::int64_t>& ids) {
    TitleMatch match;
    match.kind = tune::MatchKind::doubtful;
    for (const std::int64_t id : ids) match.candidates.push_back({{id}, "Soup", "soup"});
    return match;
}

// The ids chosen, 0 for none.
std::vector<std::int64_t> ids(const TitleChoice& choice) {
    std::vector<std::int64_t> ids;
    for (const auto& chosen : choice.chosen) ids.push_back(chosen ? chosen->value : 0);
    return ids;
}

using Ids = std::vector<std::int64_t>;
using Words = std::vector<std::string>;

const std::vector<TitleMatch>& two() {
    static const std::vector<TitleMatch> questions{question({14, 23}), question({21, 24, 2})};
    return questions;
}

const std::vector<TitleMatch>& one() {
    static const std::vector<TitleMatch> questions{question({14, 23})};
    return questions;
}

}  // namespace

TEST_CASE("title choice: number and letter, in any case, together or apart", "[tune][title-choice]") {
    for (const char* answer : {"1b 2a", "1B 2A", "1b,2a", "2a; 1b", "1 b 2 a", " 1 b,2a \r"}) {
        CAPTURE(answer);
        const TitleChoice choice = read_title_choice(answer, two());
        CHECK(ids(choice) == Ids{23, 21});
        CHECK(choice.not_understood.empty());
        CHECK(choice.second.empty());
    }
}

TEST_CASE("title choice: a letter alone where there is one question", "[tune][title-choice]") {
    CHECK(ids(read_title_choice("b", one())) == Ids{23});
    CHECK(ids(read_title_choice("B", one())) == Ids{23});
    CHECK(ids(read_title_choice("1a", one())) == Ids{14});
    CHECK(ids(read_title_choice("a", two())) == Ids{0, 0});
    CHECK(read_title_choice("a", two()).not_understood == Words{"a"});
}

TEST_CASE("title choice: a tune's id where the tune is a candidate", "[tune][title-choice]") {
    CHECK(ids(read_title_choice("23", one())) == Ids{23});
    CHECK(ids(read_title_choice("24 14", two())) == Ids{14, 24});
    CHECK(ids(read_title_choice("2", two())) == Ids{0, 2});
    CHECK(ids(read_title_choice("2 a", two())) == Ids{0, 21});  // behind a number a letter is its own
    CHECK(read_title_choice("99 1", two()).not_understood == Words{"99", "1"});
    const std::vector<TitleMatch> same{question({5, 6}), question({5, 7})};
    CHECK(ids(read_title_choice("5 5", same)) == Ids{5, 5});
}

TEST_CASE("title choice: the first answer to a question counts, and the second is told", "[tune][title-choice]") {
    const TitleChoice choice = read_title_choice("1a 1b 1a 24", two());
    CHECK(ids(choice) == Ids{14, 24});
    CHECK(choice.second == Words{"1b"});
    CHECK(read_title_choice("14 23", two()).second == Words{"23"});
}

TEST_CASE("title choice: what is not understood is told as it was written", "[tune][title-choice]") {
    const TitleChoice choice = read_title_choice("1c 3a 0a ferry é 99999999999999999999 1ab -1a 2c", two());
    CHECK(ids(choice) == Ids{0, 2});
    CHECK(choice.not_understood == Words{"1c", "3a", "0a", "ferry", "é", "99999999999999999999", "1ab", "-1a"});
    CHECK(ids(read_title_choice("", two())) == Ids{0, 0});
    CHECK(read_title_choice(" ,; ", two()).not_understood.empty());
}

TEST_CASE("title choice: the example fits the questions", "[tune][title-choice]") {
    CHECK(tune::example_of_choice(one()) == "b");
    CHECK(tune::example_of_choice({question({4})}) == "a");
    CHECK(tune::example_of_choice(two()) == "1a 2b");
    CHECK(tune::example_of_choice({question({4, 5}), question({6})}) == "1a 2a");
    for (const auto& questions : {one(), two()})
        CHECK(read_title_choice(tune::example_of_choice(questions), questions).not_understood.empty());
}
