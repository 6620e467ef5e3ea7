#include "answers/reviews.h"

#include <catch2/catch.hpp>

#include "support/collected.h"

namespace {

const std::string kReviewed =
    "X:1\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:D\nDED FED|]\n\n"
    "X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\nDFAF D4|]\n";

answers::ReviewsAnswer reviews_on(const char* today, answers::ReviewsQuestion question = {}) {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", std::nullopt, std::nullopt};
    kept.events[1] = {1, 1, {base::read_date("2026-11-02"), tune::PlayerEvent::known}, std::nullopt};
    kept.events[2] = {1, 2, {base::read_date("2026-11-03"), tune::PlayerEvent::known}, std::nullopt};
    question.player = "Ina";
    question.today = base::read_date(today);
    return answers::answer(support::collected(kReviewed, kept), question);
}

}  // namespace

TEST_CASE("reviews: what has come due, at most so many, all of them counted", "[answers][reviews]") {
    answers::ReviewsQuestion one;
    one.limit = 1;
    const answers::ReviewsAnswer answer = reviews_on("2026-12-24", one);
    CHECK(answer.rows.size() == 1);
    CHECK(answer.due == 2);
    CHECK(answer.has_tunes);
}

TEST_CASE("reviews: where nothing is due the first to come is told", "[answers][reviews]") {
    const answers::ReviewsAnswer answer = reviews_on("2026-11-02");
    CHECK(answer.rows.empty());
    REQUIRE(answer.next.size() == 1);
}

TEST_CASE("reviews: of the tunes that pass alone", "[answers][reviews]") {
    answers::ReviewsQuestion jigs;
    jigs.filter.columns.rhythm = "jig";
    const answers::ReviewsAnswer answer = reviews_on("2026-12-24", jigs);
    REQUIRE(answer.rows.size() == 1);
    CHECK(tune::title_of(answer.rows[0].record) == "Lamp");
    jigs.filter.columns.rhythm = "waltz";
    CHECK_FALSE(reviews_on("2026-12-24", jigs).has_tunes);
}
