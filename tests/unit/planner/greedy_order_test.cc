#include "planner/greedy_order.h"

#include <catch2/catch.hpp>

#include "obvious.h"

using namespace planner;

namespace {

std::int64_t greedy_cost(const std::vector<obvious::Tune>& tunes, const std::vector<int>& have = {}) {
    const auto wanted = obvious::wanted(tunes);
    return obvious::cost(
        wanted, obvious::note_set(have),
        obvious::one_by_one(greedy_order(gather_demands(wanted, obvious::note_set(have), obvious::kSingleNotes),
                                         obvious::kSingleNotes)));
}

}  // namespace

TEST_CASE("greedy: takes the single note first and pays for it", "[planner][greedy]") {
    // Worked by hand and confirmed by permutation; the least costs are 37 and 29.
    CHECK(greedy_cost({{{1, 2}, 2}, {{2, 3}, 2}, {{1, 3}, 2}, {{4}, 1}, {{5, 6}, 3}}) == 41);
    CHECK(greedy_cost({{{1}, 3}, {{2, 3}, 10}}) == 33);
    CHECK(greedy_cost({{{1, 2, 3}, 6}, {{4}, 1}}) == 25);
}

TEST_CASE("greedy: right where nothing is to be won by waiting", "[planner][greedy]") {
    CHECK(greedy_cost({{{1, 2}, 3}, {{1, 2, 3}, 2}, {{4}, 1}, {{4, 5}, 4}}) == 31);
    CHECK(greedy_cost({{{1, 2}, 5}, {{3}, 3}, {{4}, 3}}) == 29);
}

TEST_CASE("greedy: ties to the most needed note, then to the lower", "[planner][greedy]") {
    const auto order =
        greedy_order(gather_demands(obvious::wanted({{{60, 64}, 1}, {{62, 64}, 1}}), {}, obvious::kSingleNotes),
                     obvious::kSingleNotes);
    CHECK(order == std::vector<int>{64, 60, 62});
}

TEST_CASE("greedy: loses without limit", "[planner][greedy]") {
    // Six single notes of weight 1 and a pair of weight 1000: greedy leaves the pair to the end.
    const std::vector<obvious::Tune> tunes{{{60}}, {{61}}, {{62}}, {{63}}, {{64}}, {{65}}, {{66, 67}, 1000}};
    CHECK(greedy_cost(tunes) == 1 + 2 + 3 + 4 + 5 + 6 + 8 * 1000);
    CHECK(obvious::least_cost(obvious::wanted(tunes), {}) == 2 * 1000 + 3 + 4 + 5 + 6 + 7 + 8);
}
