#include "repertoire/review.h"

#include <catch2/catch.hpp>

using repertoire::kReviewGaps;
using repertoire::Review;
using repertoire::review_of;
using tune::PlayerEvent;

namespace {

tune::PlayerTune said(const std::vector<std::pair<const char*, PlayerEvent>>& events, std::int64_t id = 1) {
    tune::PlayerTune tune;
    tune.tune = {id};
    for (const auto& [day, event] : events) tune.events.push_back({base::read_date(day), event});
    return tune;
}

std::string due(const std::vector<std::pair<const char*, PlayerEvent>>& events) {
    const auto review = review_of(said(events), base::read_date("2029-01-01"));
    return review ? base::to_string(review->due) : "";
}

}  // namespace

TEST_CASE("review: a new tune comes back after growing gaps while it goes well", "[repertoire]") {
    std::vector<std::pair<std::string, PlayerEvent>> events{{"2027-01-01", PlayerEvent::learning}};
    base::Date day = base::read_date("2027-01-01");
    for (std::size_t at = 0; at < kReviewGaps.size() + 2; ++at) {
        std::vector<std::pair<const char*, PlayerEvent>> given;
        for (const auto& [when, event] : events) given.emplace_back(when.c_str(), event);
        const auto gap = kReviewGaps[std::min(at, kReviewGaps.size() - 1)];
        day += std::chrono::days(gap);
        CHECK(due(given) == base::to_string(day));
        events.emplace_back(base::to_string(day), PlayerEvent::played);
    }
}

TEST_CASE("review: played again too soon it keeps its gap, counted from that day", "[repertoire]") {
    CHECK(due({{"2027-01-01", PlayerEvent::known}, {"2027-01-05", PlayerEvent::played}}) == "2027-02-04");
    CHECK(due({{"2027-01-01", PlayerEvent::known}, {"2027-01-16", PlayerEvent::played}}) == "2027-04-01");
}

TEST_CASE("review: what did not hold, or is rusty, begins again", "[repertoire]") {
    const auto shaky = review_of(said({{"2027-01-01", PlayerEvent::known}, {"2027-03-01", PlayerEvent::shaky}}),
                                 base::read_date("2027-03-05"));
    REQUIRE(shaky);
    CHECK(base::to_string(shaky->due) == "2027-03-02");
    CHECK(shaky->is_shaky);
    CHECK(shaky->days_since == 4);
    // Said to be rusty, not played: its age is that of the last time.
    const auto rusty = review_of(said({{"2026-01-01", PlayerEvent::known}, {"2027-03-01", PlayerEvent::rusty}}),
                                 base::read_date("2027-03-05"));
    REQUIRE(rusty);
    CHECK(rusty->is_rusty);
    CHECK(base::to_string(rusty->last) == "2026-01-01");
    // Played well again it is neither.
    const auto again = review_of(said({{"2027-03-01", PlayerEvent::shaky},
                                       {"2027-03-01", PlayerEvent::rusty},
                                       {"2027-03-03", PlayerEvent::played}}),
                                 base::read_date("2027-03-05"));
    REQUIRE(again);
    CHECK_FALSE(again->is_rusty);
    CHECK_FALSE(again->is_shaky);
    CHECK(base::to_string(again->due) == "2027-03-06");
}

TEST_CASE("review: what is said to be rusty is due at once", "[repertoire]") {
    const base::Date day = base::read_date("2027-03-01");
    const tune::PlayerTune fresh = said({{"2027-03-01", PlayerEvent::rusty}});
    CHECK(review_of(fresh, day)->due == day);
    CHECK(repertoire::review_all(std::vector{fresh}, day).due.size() == 1);
    const tune::PlayerTune played = said({{"2027-03-01", PlayerEvent::rusty}, {"2027-03-01", PlayerEvent::played}});
    CHECK(repertoire::review_all(std::vector{played}, day).due.empty());
}

TEST_CASE("review: half a year unplayed is rusty", "[repertoire]") {
    const auto tune = said({{"2027-01-01", PlayerEvent::known}});
    CHECK_FALSE(review_of(tune, base::read_date("2027-06-29"))->is_rusty);  // 179 days
    CHECK(review_of(tune, base::read_date("2027-06-30"))->is_rusty);        // 180
}

TEST_CASE("review: what is in no state is not reviewed, and the future does not count", "[repertoire]") {
    const base::Date today = base::read_date("2027-06-01");
    CHECK_FALSE(review_of(said({}), today));
    CHECK_FALSE(review_of(said({{"2027-01-01", PlayerEvent::played}}), today));
    CHECK_FALSE(review_of(said({{"2027-01-01", PlayerEvent::known}, {"2027-02-01", PlayerEvent::forgotten}}), today));
    CHECK_FALSE(review_of(said({{"2027-07-01", PlayerEvent::known}}), today));
    CHECK(base::to_string(
              review_of(said({{"2027-05-01", PlayerEvent::known}, {"2027-07-01", PlayerEvent::played}}), today)->due) ==
          "2027-05-31");
}

TEST_CASE("reviews: shaky ones first, then rusty, then what is most overdue by its gap", "[repertoire]") {
    const std::vector<tune::PlayerTune> tunes{
        said({{"2027-05-01", PlayerEvent::known}}, 1),                                       // 31 days of 30
        said({{"2027-05-22", PlayerEvent::learning}}, 2),                                    // 10 days of 1
        said({{"2027-05-20", PlayerEvent::known}}, 3),                                       // not due
        said({{"2026-01-01", PlayerEvent::known}}, 4),                                       // rusty by age
        said({{"2027-01-01", PlayerEvent::known}, {"2027-05-31", PlayerEvent::shaky}}, 5),   // shaky
        said({{"2027-05-31", PlayerEvent::known}, {"2027-06-01", PlayerEvent::played}}, 6),  // not due
    };
    const auto reviews = repertoire::review_all(tunes, base::read_date("2027-06-01"));
    std::vector<std::size_t> due, later;
    for (const Review& review : reviews.due) due.push_back(review.tune);
    for (const Review& review : reviews.later) later.push_back(review.tune);
    CHECK(due == std::vector<std::size_t>{4, 3, 1, 0});
    CHECK(later == std::vector<std::size_t>{2, 5});
}

TEST_CASE("review gaps: a night at least, growing, and none more than doubles and a bit", "[repertoire]") {
    CHECK(kReviewGaps.front() >= 1);  // Simmons 2012: what is gained is gained over a night
    for (std::size_t at = 1; at < kReviewGaps.size(); ++at) {
        CHECK(kReviewGaps[at] > kReviewGaps[at - 1]);  // Kang and others 2014: growing gaps
        CHECK(kReviewGaps[at] <= 3 * kReviewGaps[at - 1]);
    }
}

TEST_CASE("review: what was said to be known on one day does not all come due on one day", "[repertoire]") {
    std::vector<tune::PlayerTune> tunes;
    for (std::int64_t id = 1; id <= 12; ++id) tunes.push_back(said({{"2027-01-01", PlayerEvent::known}}, id));
    tunes.push_back(said({{"2027-01-02", PlayerEvent::known}}, 13));
    const auto due_by = [&](const char* day) { return repertoire::review_all(tunes, base::read_date(day)).due.size(); };
    CHECK(due_by("2027-01-28") == 0);
    CHECK(due_by("2027-01-29") == 5);
    CHECK(due_by("2027-01-30") == 10);
    CHECK(due_by("2027-01-31") == 12);  // 30 days, the gap of a tune that is known
    CHECK(due_by("2027-02-01") == 13);
    tunes[0].events.push_back({base::read_date("2027-01-15"), PlayerEvent::played});  // it goes its own way
    CHECK(repertoire::review_all(tunes, base::read_date("2027-01-31")).due.size() == 11);
    std::vector<tune::PlayerTune> many;
    for (std::int64_t id = 1; id <= 300; ++id) many.push_back(said({{"2027-01-01", PlayerEvent::known}}, id));
    CHECK(repertoire::review_all(many, base::read_date("2027-01-01")).due.empty());
    CHECK(repertoire::review_all(many, base::read_date("2027-01-02")).due.size() == 10);
    CHECK(repertoire::review_all(many, base::read_date("2027-01-31")).due.size() == 300);
}
