// The search for a set list: what a state is worth, and the exchanges that better it. Inside this room only.
#pragma once

#include <cstdint>
#include <vector>

#include "repertoire/evening.h"

namespace repertoire {

// The tunes of one rhythm, in the order of titles.
struct RhythmPool {
    std::vector<std::size_t> tunes;  // into the candidates
    std::vector<int> seconds;        // each
    std::vector<int> keys;           // each: equal for equal keys
    std::vector<int> points;         // of a join, first times size plus second; kNoJoin where there is none

    std::size_t size() const noexcept { return tunes.size(); }
    int points_of(std::size_t first, std::size_t second) const { return points[first * size() + second]; }
};

constexpr int kNoJoin = -1'000'000;

struct PooledSet {
    std::size_t pool = 0;
    std::vector<std::size_t> tunes;  // into the pool
};

class EveningSearch {
public:
    // Pools of two tunes or more.
    EveningSearch(const std::vector<RhythmPool>& pools, const EveningGoal& goal, int most_seconds);

    void build();
    void improve();

    const std::vector<PooledSet>& sets() const noexcept { return sets_; }
    int seconds() const;
    bool is_settled() const noexcept { return trials_ < kMostTrials; }

private:
    bool add_set();
    bool add_set_of(std::size_t pool);
    bool may_come_next(std::size_t pool) const;
    std::int64_t value() const;  // in seconds, more is better; kForbidden where a rule is broken
    bool keep_if_better(std::vector<PooledSet>&& changed);
    bool exchange_tunes();
    bool reorder_sets();
    bool exchange_sets();
    bool lengthen_or_shorten();
    bool found_set();
    bool is_used(std::size_t pool, std::size_t tune) const;

    const std::vector<RhythmPool>& pools_;
    EveningGoal goal_;
    int most_seconds_;
    std::vector<PooledSet> sets_;
    std::vector<std::vector<char>> used_;  // by pool and tune
    std::int64_t value_ = 0;
    std::int64_t trials_ = 0;
};

}  // namespace repertoire
