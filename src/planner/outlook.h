// The view from one set of learnt units: what is waiting, what could open next, and how little the rest could cost.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "planner/block_problem.h"

namespace planner {

// Keeps its working memory from one view to the next. Borrows the problem, which must outlive it. All demands must weigh something.
class Outlook {
public:
    // One for each unit, see outlook.cc. Any prices are valid; good ones make the bound strong.
    using Price = std::uint16_t;

    explicit Outlook(const BlockProblem& problem);

    // The bound starts from `prices`, best those that were found from a little earlier; from equal ones without.
    void look_from(std::uint64_t learnt, std::span<const Price> prices = {});

    // Weight of the demands that are not met.
    std::int64_t waiting() const noexcept { return waiting_; }

    // No way of learning the rest costs less than this from here on. Looks no closer once the answer exceeds `enough`.
    std::int64_t least_to_come(std::int64_t enough);

    // The best that least_to_come found.
    std::span<const Price> prices() const noexcept { return {prices_.data(), problem_.units.size()}; }

    // The sets of units that meet some demand and could not leave out a unit, each once. Every least-cost way learns one of
    // them next, its units in any order.
    std::vector<std::uint64_t> smallest_ways() const;

private:
    struct Missing {
        std::uint64_t units = 0;
        std::int64_t weight = 0;
    };

    std::int64_t bound_by_shares();
    void share_out(const Missing& missing);
    void sort_by_share();
    std::int64_t most_met_within(std::int64_t time) const;
    void level_prices();

    const BlockProblem& problem_;
    bool has_unit_times_;
    int scale_bits_;                                    // shares count in weight / 2^scale_bits_
    int rounds_ = 0;
    std::int64_t waiting_ = 0;
    std::vector<Missing> missing_;                      // of the waiting demands, by the time they take
    std::vector<std::size_t> end_of_time_;              // into missing_: of those that take at most this time
    std::vector<int> rest_;                             // units not learnt, most share for their time first
    std::array<Price, kMaxUnits> prices_{};             // 1 to kTopPrice
    std::array<std::int64_t, kMaxUnits> shares_{};

    std::vector<Missing> unsorted_;
    std::vector<std::size_t> times_;
};

}  // namespace planner
