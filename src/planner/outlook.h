// The view from one set of learnt units: what is waiting, what could open next, and how little the rest could cost.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "planner/block_problem.h"

namespace planner {

// Looks from a set of learnt units, and from there ahead to sets that some more units lead to. Keeps its working memory
// from one view to the next. Borrows the problem, which must outlive it. All demands must weigh something.
class Outlook {
public:
    // One for each unit, see outlook.cc. Any prices are valid; good ones make the bound strong.
    using Price = std::uint16_t;

    explicit Outlook(const BlockProblem& problem);

    void look_from(std::uint64_t learnt);

    // Weight of the demands that are not met.
    std::int64_t waiting() const noexcept { return waiting_; }

    // The sets of units that meet some demand and could not leave out a unit, each once. Every least-cost way learns
    // one of them next, its units in any order.
    std::vector<std::uint64_t> smallest_ways() const;

    // Once `way` is learnt as well (0: from here), no way of learning the rest costs less than this. Looks no closer
    // once the answer exceeds `enough`. Starts from `prices`, best those found a little earlier; from equal ones where
    // there are none.
    std::int64_t least_beyond(std::uint64_t way, std::span<const Price> prices, std::int64_t enough);

    // The best that least_beyond found.
    std::span<const Price> prices() const noexcept { return {prices_.data(), problem_.units.size()}; }

private:
    struct Missing {
        std::uint64_t units = 0;
        std::int64_t weight = 0;
        std::size_t time = 0;
    };

    void look_beyond(std::uint64_t way);
    void sort_by_time(std::uint64_t rest, std::vector<Missing>& sorted);
    std::int64_t bound_by_shares();
    void share_out(const Missing& missing);
    void sort_by_share();
    std::int64_t most_met_within(std::int64_t time) const;
    void level_prices();

    const BlockProblem& problem_;
    int scale_bits_;  // shares count in weight / 2^scale_bits_

    std::uint64_t learnt_ = 0;
    std::int64_t waiting_ = 0;
    std::vector<Missing> missing_;  // what waiting demands lack, each set once, by the time it takes

    // Of what least_beyond looks at:
    std::int64_t waiting_beyond_ = 0;
    std::vector<Missing> missing_beyond_;    // by the time they take
    std::vector<std::size_t> end_of_time_;   // into the list last sorted: of those that take at most this time
    std::vector<int> rest_;                  // units not learnt, most share for their time first
    std::array<Price, kMaxUnits> prices_{};  // 1 to kTopPrice
    std::array<std::int64_t, kMaxUnits> shares_{};

    std::vector<Missing> unsorted_;
    std::vector<std::uint32_t> slots_;  // into unsorted_, by a hash of the units
};

}  // namespace planner
