#include "repertoire/evening.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <random>
#include <set>

#include "shapes.h"

using repertoire::Evening;
using repertoire::EveningGoal;
using repertoire::EveningSet;
using repertoire::plan_evening;
using repertoire::TuneShape;
using repertoire_test::shape;

namespace {

std::vector<TuneShape> shelf(std::int64_t each) {
    const char* const rhythms[] = {"reel", "jig", "polka"};
    const char* const keys[] = {"G major", "D major", "A major", "E minor"};
    std::vector<TuneShape> tunes;
    for (std::int64_t id = 1; id <= 3 * each; ++id) {
        tunes.push_back(shape(id, rhythms[id % 3], keys[id / 3 % 4]));
        tunes.back().last_note = 62 + static_cast<int>(id * 5 % 12);
        tunes.back().first_note = 62 + static_cast<int>(id * 7 % 12);
    }
    return tunes;
}

int seconds_of_all(const std::vector<TuneShape>& tunes, const Evening& evening, const EveningGoal& goal) {
    int seconds = 0;
    for (const EveningSet& set : evening.sets)
        for (const auto& each : set.tunes) seconds += *repertoire::seconds_of(tunes[each.tune], goal);
    return seconds;
}

int points_of(const Evening& evening) {
    int points = 0;
    for (const EveningSet& set : evening.sets)
        for (const auto& each : set.tunes) points += each.join ? each.join->points : 0;
    return points;
}

}  // namespace

TEST_CASE("evening: a tune lasts its bars by the pace of its rhythm", "[repertoire][evening]") {
    EveningGoal goal;
    // 32 bars of two beats, three times, 70 beats a minute: 192 beats.
    CHECK(repertoire::seconds_of(shape(1, "reel", "G major"), goal) == 165);
    goal.times = 1;
    CHECK(repertoire::seconds_of(shape(1, "reel", "G major"), goal) == 55);
    goal.pace = repertoire::PaceKind::session;
    CHECK(repertoire::seconds_of(shape(1, "reel", "G major"), goal) == 35);
    CHECK_FALSE(repertoire::seconds_of(shape(1, "air", "G major"), goal));
    TuneShape empty = shape(1, "reel", "G major");
    empty.bars = 0;
    CHECK_FALSE(repertoire::seconds_of(empty, goal));
}

TEST_CASE("evening: sets keep the rules", "[repertoire][evening]") {
    const std::vector<TuneShape> tunes = shelf(20);
    for (const int minutes : {1, 10, 30, 45, 60, 90})
        for (const int in_set : {2, 3, 4}) {
            CAPTURE(minutes, in_set);
            EveningGoal goal;
            goal.minutes = minutes;
            goal.in_set = in_set;
            const Evening evening = plan_evening(tunes, goal);
            std::set<std::size_t> used;
            int running = 0;
            std::string last;
            for (const EveningSet& set : evening.sets) {
                CHECK(set.tunes.size() >= 2);
                CHECK(set.tunes.size() <= static_cast<std::size_t>(in_set));
                CHECK_FALSE(set.tunes.front().join);
                for (const auto& each : set.tunes) {
                    CHECK(used.insert(each.tune).second);
                    CHECK(tunes[each.tune].rhythm == set.rhythm);
                }
                running = set.rhythm == last ? running + 1 : 1;
                last = set.rhythm;
                CHECK(running <= repertoire::kMostRunning);
            }
            CHECK(evening.seconds == seconds_of_all(tunes, evening, goal));
            CHECK(evening.seconds <= 60 * minutes + 165 / 2);  // a reel, the longest here
            CHECK(evening.is_settled);
            if (minutes >= 10) {
                CHECK(evening.is_filled);
                CHECK(evening.seconds >= 60 * minutes - 165 * in_set / 2);
            }
        }
}

TEST_CASE("evening: the joins are far better than chance", "[repertoire][evening]") {
    const std::vector<TuneShape> tunes = shelf(20);
    EveningGoal goal;
    goal.minutes = 60;
    const Evening evening = plan_evening(tunes, goal);
    // The same sets with their tunes dealt out at random within each rhythm.
    std::mt19937 random(5);
    int best = -1000;
    for (int turn = 0; turn < 20; ++turn) {
        std::map<std::string, std::vector<std::size_t>> left;
        for (std::size_t at = 0; at < tunes.size(); ++at) left[tunes[at].rhythm].push_back(at);
        for (auto& [rhythm, members] : left) std::shuffle(members.begin(), members.end(), random);
        int points = 0;
        for (const EveningSet& set : evening.sets) {
            std::optional<std::size_t> before;
            for (std::size_t place = 0; place < set.tunes.size(); ++place) {
                const std::size_t tune = left[set.rhythm].back();
                left[set.rhythm].pop_back();
                if (before) points += repertoire::follow(tunes[*before], tunes[tune])->points;
                before = tune;
            }
        }
        best = std::max(best, points);
    }
    CHECK(points_of(evening) > best);
}

TEST_CASE("evening: with three tunes the best order is found", "[repertoire][evening]") {
    // The plain way: every order of all three, valued by hand.
    std::mt19937 random(11);
    for (int turn = 0; turn < 30; ++turn) {
        std::vector<TuneShape> tunes;
        const char* const keys[] = {"G major", "D major", "A major", "E minor", "A dorian"};
        for (std::int64_t id = 1; id <= 3; ++id) {
            tunes.push_back(shape(turn * 3 + id, "reel", keys[random() % 5]));
            tunes.back().first_note = 60 + static_cast<int>(random() % 20);
            tunes.back().last_note = 60 + static_cast<int>(random() % 20);
        }
        EveningGoal goal;
        goal.minutes = 8;  // three reels last 8:15
        const Evening evening = plan_evening(tunes, goal);
        std::vector<std::size_t> order{0, 1, 2};
        int best = -1000;
        do {
            best = std::max(best, repertoire::follow(tunes[order[0]], tunes[order[1]])->points +
                                      repertoire::follow(tunes[order[1]], tunes[order[2]])->points);
        } while (std::next_permutation(order.begin(), order.end()));
        REQUIRE(evening.sets.size() == 1);
        REQUIRE(evening.sets[0].tunes.size() == 3);
        CHECK(points_of(evening) == best);
    }
}

TEST_CASE("evening: the order of the candidates does not matter", "[repertoire][evening]") {
    std::vector<TuneShape> tunes = shelf(15);
    const auto ids = [](const std::vector<TuneShape>& candidates) {
        EveningGoal goal;
        goal.minutes = 40;
        std::vector<std::int64_t> found;
        for (const EveningSet& set : plan_evening(candidates, goal).sets)
            for (const auto& each : set.tunes) found.push_back(candidates[each.tune].id.value);
        return found;
    };
    const auto expected = ids(tunes);
    std::mt19937 shuffles(3);
    for (int turn = 0; turn < 3; ++turn) {
        std::shuffle(tunes.begin(), tunes.end(), shuffles);
        CHECK(ids(tunes) == expected);
    }
}

TEST_CASE("evening: too few tunes fill what they can", "[repertoire][evening]") {
    EveningGoal goal;
    goal.minutes = 60;
    const Evening none = plan_evening({}, goal);
    CHECK(none.sets.empty());
    CHECK_FALSE(none.is_filled);
    const Evening alone =
        plan_evening({shape(1, "reel", "G major"), shape(2, "jig", "G major"), shape(3, "air", "G major")}, goal);
    CHECK(alone.sets.empty());
    CHECK(alone.without_company == 2);
    CHECK(alone.without_pace == 1);
    const Evening few = plan_evening(shelf(2), goal);
    CHECK_FALSE(few.is_filled);
    CHECK(few.sets.size() == 3);
}

TEST_CASE("evening: one rhythm alone may run on", "[repertoire][evening]") {
    std::vector<TuneShape> tunes;
    for (std::int64_t id = 1; id <= 12; ++id) tunes.push_back(shape(id, "reel", id % 2 == 0 ? "G major" : "D major"));
    EveningGoal goal;
    goal.minutes = 30;
    CHECK(plan_evening(tunes, goal).is_filled);
}

TEST_CASE("evening: tunes of odd length are no dances", "[repertoire][evening]") {
    // Source: common practice, no source.
    TuneShape tune = shape(1, "reel", "G major");
    for (const int bars : {16, 32, 40, 48}) CHECK((tune.bars = bars, repertoire::has_whole_parts(tune)));
    for (const int bars : {0, 30, 34, 36}) CHECK_FALSE((tune.bars = bars, repertoire::has_whole_parts(tune)));
    tune.meter = "12/8";
    tune.bars = 20;  // forty bars of 6/8
    CHECK(repertoire::has_whole_parts(tune));
    std::vector<TuneShape> tunes = shelf(4);
    tunes[0].bars = 30;
    EveningGoal goal;
    goal.for_dance = true;
    const Evening evening = plan_evening(tunes, goal);
    CHECK(evening.odd_length == 1);
    for (const EveningSet& set : evening.sets)
        for (const auto& each : set.tunes) CHECK(each.tune != 0);
}

TEST_CASE("evening: many tunes of a rhythm are thinned out, and said to be", "[repertoire][evening]") {
    const Evening evening = plan_evening(shelf(150), EveningGoal());
    CHECK(evening.not_looked_at == 3 * (150 - static_cast<std::int64_t>(repertoire::kMostOfRhythm)));
    CHECK(evening.considered == 450);
    CHECK(evening.is_filled);
}
