#include "planner/cover.h"

#include <catch2/catch.hpp>

#include "obvious.h"

using namespace planner;

namespace {

const Deadline kAllTime(1e9);

std::vector<Demand> demands_of(const std::vector<obvious::Tune>& tunes) {
    std::vector<Demand> demands;
    for (const obvious::Tune& tune : tunes) demands.push_back({obvious::note_set(tune.notes), tune.weight, 1});
    return demands;
}

std::vector<Demand> random_demands(std::mt19937& random, int notes, int tunes, int most) {
    std::vector<Demand> demands;
    for (const Wanted& tune : obvious::random_tunes(random, notes, tunes, most))
        demands.push_back({tune.needed, tune.weight, 1});
    return demands;
}

music::NoteSet all_notes(const std::vector<Demand>& demands) {
    music::NoteSet all;
    for (const Demand& demand : demands) all = all | demand.missing;
    return all;
}

int naturals(const music::NoteSet& notes) {
    const std::set<int> white{0, 2, 4, 5, 7, 9, 11};
    int count = 0;
    for (const int note : obvious::plain_set(notes)) count += white.count(note % 12) > 0 ? 1 : 0;
    return count;
}

// Every set of `count` of the notes that holds the forced ones, best first.
std::vector<Cover> every_cover(const std::vector<Demand>& demands, std::size_t count, const music::NoteSet& forced) {
    const auto plain = obvious::plain_set(all_notes(demands) | forced);
    const std::vector<int> notes(plain.begin(), plain.end());
    std::vector<Cover> covers;
    for (unsigned bits = 0; bits < 1U << notes.size(); ++bits) {
        Cover cover;
        for (std::size_t place = 0; place < notes.size(); ++place)
            if ((bits >> place & 1U) != 0) cover.notes.add(notes[place]);
        if (static_cast<std::size_t>(cover.notes.size()) != std::min(count, notes.size())) continue;
        if (!forced.is_within(cover.notes)) continue;
        for (const Demand& demand : demands)
            if (demand.missing.is_within(cover.notes)) cover.met += demand.weight;
        covers.push_back(cover);
    }
    std::sort(covers.begin(), covers.end(), [](const Cover& a, const Cover& b) {
        if (a.met != b.met) return a.met > b.met;
        if (naturals(a.notes) != naturals(b.notes)) return naturals(a.notes) > naturals(b.notes);
        return comes_before(a.notes, b.notes);
    });
    return covers;
}

}  // namespace

TEST_CASE("cover: every size, with forced notes and three answers, as by trying all sets", "[planner][cover]") {
    std::mt19937 random(911);
    for (int round = 0; round < 400; ++round) {
        const int count = 1 + static_cast<int>(random() % 9);
        const auto demands = random_demands(random, count, 1 + static_cast<int>(random() % 24), 5);
        for (std::size_t size = 0; size <= static_cast<std::size_t>(count) + 1; ++size) {
            music::NoteSet forced;
            for (int note = 60; note <= 60 + count; ++note)  // the last is in no demand
                if (random() % 5 == 0 && static_cast<std::size_t>(forced.size()) < size) forced.add(note);
            auto expected = every_cover(demands, size, forced);
            if (expected.size() > 3) expected.resize(3);
            const CoverAnswer answer = best_cover(demands, {size, forced, 3}, {}, kAllTime);
            REQUIRE(answer.covers == expected);
            REQUIRE(answer.is_proven());
            REQUIRE(answer.is_finished);
        }
    }
}

TEST_CASE("cover: the smallest set for every weight, as by trying all sets", "[planner][cover]") {
    std::mt19937 random(912);
    for (int round = 0; round < 150; ++round) {
        const auto demands = random_demands(random, 1 + static_cast<int>(random() % 8), 12, 4);
        std::vector<Cover> best;
        for (std::size_t size = 0; size <= static_cast<std::size_t>(all_notes(demands).size()); ++size)
            best.push_back(every_cover(demands, size, {}).front());
        for (std::int64_t weight = 0; weight <= weight_of(demands); ++weight) {
            std::size_t fewest = 0;
            while (best[fewest].met < weight) ++fewest;
            const SmallestCover found = smallest_cover(demands, weight, {}, kAllTime);
            REQUIRE(found.fewest == fewest);
            REQUIRE(found.is_proven());
            REQUIRE(found.cover == best[fewest]);
        }
    }
}

TEST_CASE("cover: best sets need not nest", "[planner][cover]") {
    // Worked by hand: one note 3 or 4 (3 each), two {3,4} (6), three {1,2,3} (8; with 4 instead of 3 as much). Of
    // equals the one with more naturals (none of 1, 3 is one; 2 and 4 are) comes first.
    const auto demands = demands_of({{{1, 2}, 5}, {{3}, 3}, {{4}, 3}});
    for (std::size_t size = 1; size <= 3; ++size)  // and checked by trying all sets
        CHECK(best_cover(demands, {size, {}, 1}, {}, kAllTime).covers.front() ==
              every_cover(demands, size, {}).front());
    const auto best = [&demands](std::size_t size) { return best_cover(demands, {size, {}, 2}, {}, kAllTime).covers; };
    CHECK(best(1) == std::vector<Cover>{{obvious::note_set({4}), 3}, {obvious::note_set({3}), 3}});
    CHECK(best(2).front() == Cover{obvious::note_set({3, 4}), 6});
    CHECK(best(3) == std::vector<Cover>{{obvious::note_set({1, 2, 4}), 8}, {obvious::note_set({1, 2, 3}), 8}});
    // Worked by hand: the tune of two notes outweighs the other once there is room for both.
    const auto two = demands_of({{{1}, 3}, {{2, 3}, 4}});
    CHECK(best_cover(two, {1, {}, 1}, {}, kAllTime).covers.front() == Cover{obvious::note_set({1}), 3});
    CHECK(best_cover(two, {2, {}, 1}, {}, kAllTime).covers.front() == Cover{obvious::note_set({2, 3}), 4});
}

TEST_CASE("cover: laws on collections too large to try all sets", "[planner][cover]") {
    std::mt19937 random(913);
    for (int round = 0; round < 12; ++round) {
        auto demands = random_demands(random, 20, 80, 5);
        std::int64_t before = 0;
        for (std::size_t size = 1; size <= 20; ++size) {
            const CoverAnswer answer = best_cover(demands, {size, {}, 2}, {}, kAllTime);
            REQUIRE(answer.is_proven());
            REQUIRE(answer.covers.front().met >= before);  // one note more never loses
            before = answer.covers.front().met;
            auto more = demands;  // a demand more never loses either
            more.push_back({obvious::note_set({60 + static_cast<int>(random() % 20)}), 2, 1});
            REQUIRE(best_cover(more, {size, {}, 1}, {}, kAllTime).covers.front().met >= before);
            auto shuffled = demands;  // the order of the input is nothing
            std::shuffle(shuffled.begin(), shuffled.end(), random);
            REQUIRE(best_cover(shuffled, {size, {}, 2}, {}, kAllTime).covers == answer.covers);
            auto octave_up = demands;  // nor are the names of the notes; across 63 to 64 and beyond
            for (Demand& demand : octave_up) {
                music::NoteSet moved;
                for (const int note : obvious::plain_set(demand.missing)) moved.add(note - 12);
                demand.missing = moved;
            }
            REQUIRE(best_cover(octave_up, {size, {}, 1}, {}, kAllTime).covers.front().met == before);
        }
    }
}

TEST_CASE("cover: ended early, the bound is honest", "[planner][cover]") {
    std::mt19937 random(914);
    int ended = 0;
    for (int round = 0; round < 30; ++round) {
        const auto demands = random_demands(random, 12, 40, 6);
        std::vector<std::int64_t> most;  // by the number of notes
        for (std::size_t size = 0; size <= 12; ++size) most.push_back(every_cover(demands, size, {}).front().met);
        for (const std::size_t states : {0, 1, 3, 10}) {
            Limits limits;
            limits.max_states = states;
            for (std::size_t size = 1; size <= 12; ++size) {
                const std::int64_t best = most[size];
                const CoverAnswer answer = best_cover(demands, {size, {}, 1}, limits, kAllTime);
                REQUIRE(answer.upper_bound >= best);
                REQUIRE(answer.covers.front().met <= best);
                ended += answer.is_finished ? 0 : 1;
                if (size != 6 || best == 0) continue;
                std::size_t fewest = 1;
                while (most[fewest] < best) ++fewest;
                const SmallestCover found = smallest_cover(demands, best, limits, kAllTime);
                REQUIRE(found.fewest <= fewest);
                REQUIRE(found.cover.met >= best);
                REQUIRE(static_cast<std::size_t>(found.cover.notes.size()) >= fewest);
            }
        }
    }
    CHECK(ended > 100);
    const auto demands = random_demands(random, 20, 200, 6);
    const CoverAnswer none = best_cover(demands, {10, {}, 1}, {}, Deadline(0));
    CHECK_FALSE(none.is_finished);
    CHECK(none.upper_bound >= none.covers.front().met);
}

TEST_CASE("cover: the largest weights do not overflow", "[planner][cover]") {
    const std::int64_t half = kMaxTotalWeight / 2;
    const auto demands = demands_of({{{60, 62}, half}, {{61, 63}, half}});
    const auto answer = best_cover(demands, {2, {}, 1}, {}, kAllTime);
    CHECK(answer.covers.front() == Cover{obvious::note_set({60, 62}), half});
    CHECK(smallest_cover(demands, 2 * half, {}, kAllTime).fewest == 4);
}
