// Tested by evening_test.cc.
#include "repertoire/evening_search.h"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <optional>
#include <utility>

namespace repertoire {

namespace {

constexpr std::int64_t kForbidden = std::numeric_limits<std::int64_t>::min();

}  // namespace

EveningSearch::EveningSearch(const std::vector<RhythmPool>& pools, const EveningGoal& goal, int most_seconds)
    : pools_(pools), goal_(goal), most_seconds_(most_seconds) {
    for (const RhythmPool& pool : pools_) used_.emplace_back(pool.size(), char{0});
}

int EveningSearch::seconds() const {
    int seconds = 0;
    for (const PooledSet& set : sets_)
        for (const std::size_t tune : set.tunes) seconds += pools_[set.pool].seconds[tune];
    return seconds;
}

bool EveningSearch::is_used(std::size_t pool, std::size_t tune) const { return used_[pool][tune] != 0; }

std::int64_t EveningSearch::value() const {
    const int total = seconds();
    if (total > most_seconds_) return kForbidden;
    std::int64_t value = -std::abs(total - 60 * goal_.minutes);
    int running = 0;
    for (std::size_t at = 0; at < sets_.size(); ++at) {
        const PooledSet& set = sets_[at];
        const RhythmPool& pool = pools_[set.pool];
        const bool runs_on = at > 0 && sets_[at - 1].pool == set.pool;
        running = runs_on ? running + 1 : 1;
        if (running > kMostRunning && pools_.size() > 1) return kForbidden;
        if (runs_on) value -= kSecondsOfRunning;
        bool one_key = set.tunes.size() > 2;
        for (std::size_t next = 1; next < set.tunes.size(); ++next) {
            const int points = pool.points_of(set.tunes[next - 1], set.tunes[next]);
            if (points == kNoJoin) return kForbidden;
            value += std::int64_t{points} * kSecondsOfPoint;
            one_key = one_key && pool.keys[set.tunes[next]] == pool.keys[set.tunes[0]];
        }
        if (one_key) value -= kSecondsOfOneKey;
    }
    return value;
}

bool EveningSearch::may_come_next(std::size_t pool) const {
    if (pools_.size() == 1 || sets_.size() < static_cast<std::size_t>(kMostRunning)) return true;
    return std::any_of(sets_.end() - kMostRunning, sets_.end(),
                       [pool](const PooledSet& set) { return set.pool != pool; });
}

// The two unused tunes that go best together, then what follows best, as long as the time lasts.
bool EveningSearch::add_set_of(std::size_t pool_index) {
    const RhythmPool& pool = pools_[pool_index];
    const int left = most_seconds_ - seconds();
    std::optional<std::pair<std::size_t, std::size_t>> best;
    for (std::size_t first = 0; first < pool.size(); ++first) {
        if (is_used(pool_index, first)) continue;
        for (std::size_t second = 0; second < pool.size(); ++second) {
            if (second == first || is_used(pool_index, second) || pool.points_of(first, second) == kNoJoin ||
                pool.seconds[first] + pool.seconds[second] > left)
                continue;
            if (!best || pool.points_of(first, second) > pool.points_of(best->first, best->second))
                best = {first, second};
        }
    }
    if (!best) return false;
    PooledSet set{pool_index, {best->first, best->second}};
    int taken = pool.seconds[best->first] + pool.seconds[best->second];
    used_[pool_index][best->first] = used_[pool_index][best->second] = 1;
    while (set.tunes.size() < static_cast<std::size_t>(goal_.in_set)) {
        const std::size_t last = set.tunes.back();
        std::optional<std::size_t> next;
        for (std::size_t tune = 0; tune < pool.size(); ++tune)
            if (!is_used(pool_index, tune) && pool.points_of(last, tune) != kNoJoin &&
                taken + pool.seconds[tune] <= left &&
                (!next || pool.points_of(last, tune) > pool.points_of(last, *next)))
                next = tune;
        if (!next) break;
        used_[pool_index][*next] = 1;
        taken += pool.seconds[*next];
        set.tunes.push_back(*next);
    }
    sets_.push_back(std::move(set));
    return true;
}

// Of the rhythm with most unused tunes for the sets it has, another than the last where there is one.
bool EveningSearch::add_set() {
    std::vector<std::size_t> order;
    for (std::size_t pool = 0; pool < pools_.size(); ++pool)
        if (may_come_next(pool)) order.push_back(pool);
    std::vector<std::size_t> unused(pools_.size()), count(pools_.size());
    for (std::size_t pool = 0; pool < pools_.size(); ++pool)
        unused[pool] = static_cast<std::size_t>(std::count(used_[pool].begin(), used_[pool].end(), char{0}));
    for (const PooledSet& set : sets_) ++count[set.pool];
    const auto comes_before = [&](std::size_t one, std::size_t other) {
        if (!sets_.empty() && (one == sets_.back().pool) != (other == sets_.back().pool))
            return other == sets_.back().pool;
        return unused[one] * (count[other] + 1) > unused[other] * (count[one] + 1);
    };
    std::stable_sort(order.begin(), order.end(), comes_before);
    return std::any_of(order.begin(), order.end(), [this](std::size_t pool) { return add_set_of(pool); });
}

void EveningSearch::build() {
    while (seconds() < 60 * goal_.minutes && add_set()) {
    }
    value_ = value();
}

bool EveningSearch::keep_if_better(std::vector<PooledSet>&& changed) {
    ++trials_;
    sets_.swap(changed);
    const std::int64_t changed_value = value();
    if (changed_value <= value_) {
        sets_.swap(changed);
        return false;
    }
    value_ = changed_value;
    for (auto& used : used_) std::fill(used.begin(), used.end(), char{0});
    for (const PooledSet& set : sets_)
        for (const std::size_t tune : set.tunes) used_[set.pool][tune] = 1;
    return true;
}

// A tune for an unused one, or for one of another place.
bool EveningSearch::exchange_tunes() {
    bool any = false;
    for (std::size_t at = 0; at < sets_.size(); ++at)
        for (std::size_t place = 0; place < sets_[at].tunes.size(); ++place) {
            const std::size_t pool = sets_[at].pool;
            for (std::size_t tune = 0; tune < pools_[pool].size() && is_settled(); ++tune) {
                if (is_used(pool, tune)) continue;
                std::vector<PooledSet> changed = sets_;
                changed[at].tunes[place] = tune;
                any = keep_if_better(std::move(changed)) || any;
            }
            for (std::size_t other = at; other < sets_.size(); ++other) {
                if (sets_[other].pool != pool) continue;
                const std::size_t from = other == at ? place + 1 : 0;
                for (std::size_t there = from; there < sets_[other].tunes.size() && is_settled(); ++there) {
                    std::vector<PooledSet> changed = sets_;
                    std::swap(changed[at].tunes[place], changed[other].tunes[there]);
                    any = keep_if_better(std::move(changed)) || any;
                }
            }
        }
    return any;
}

// The tunes of a set in every order.
bool EveningSearch::reorder_sets() {
    bool any = false;
    for (std::size_t at = 0; at < sets_.size(); ++at) {
        std::vector<std::size_t> order = sets_[at].tunes;
        std::sort(order.begin(), order.end());
        do {
            if (!is_settled()) return any;
            std::vector<PooledSet> changed = sets_;
            changed[at].tunes = order;
            any = keep_if_better(std::move(changed)) || any;
        } while (std::next_permutation(order.begin(), order.end()));
    }
    return any;
}

bool EveningSearch::exchange_sets() {
    bool any = false;
    for (std::size_t at = 0; at < sets_.size(); ++at)
        for (std::size_t other = at + 1; other < sets_.size() && is_settled(); ++other) {
            if (sets_[at].pool == sets_[other].pool) continue;
            std::vector<PooledSet> changed = sets_;
            std::swap(changed[at], changed[other]);
            any = keep_if_better(std::move(changed)) || any;
        }
    return any;
}

// A tune more or less in a set that has room for it, or a whole set less.
bool EveningSearch::lengthen_or_shorten() {
    bool any = false;
    for (std::size_t at = 0; at < sets_.size(); ++at) {
        const std::size_t pool = sets_[at].pool;
        for (std::size_t place = 0; place < sets_[at].tunes.size() && sets_[at].tunes.size() > 2; ++place) {
            std::vector<PooledSet> changed = sets_;
            changed[at].tunes.erase(changed[at].tunes.begin() + static_cast<std::ptrdiff_t>(place));
            any = keep_if_better(std::move(changed)) || any;
        }
        for (std::size_t tune = 0; tune < pools_[pool].size(); ++tune)
            for (std::size_t place = 0; place <= sets_[at].tunes.size() && is_settled(); ++place) {
                if (is_used(pool, tune) || sets_[at].tunes.size() >= static_cast<std::size_t>(goal_.in_set)) break;
                std::vector<PooledSet> changed = sets_;
                changed[at].tunes.insert(changed[at].tunes.begin() + static_cast<std::ptrdiff_t>(place), tune);
                any = keep_if_better(std::move(changed)) || any;
            }
        std::vector<PooledSet> changed = sets_;
        changed.erase(changed.begin() + static_cast<std::ptrdiff_t>(at));
        if (keep_if_better(std::move(changed))) return true;
    }
    return any;
}

// Where time is left over: two tunes, unused or from sets that can spare one, as a set of their own.
bool EveningSearch::found_set() {
    if (seconds() >= 60 * goal_.minutes) return false;
    for (std::size_t pool = 0; pool < pools_.size(); ++pool)
        for (std::size_t first = 0; first < pools_[pool].size(); ++first)
            for (std::size_t second = 0; second < pools_[pool].size(); ++second) {
                const bool both_used = is_used(pool, first) && is_used(pool, second);
                if (first == second || both_used || pools_[pool].points_of(first, second) == kNoJoin) continue;
                for (std::size_t at = 0; at <= sets_.size() && is_settled(); ++at) {
                    std::vector<PooledSet> changed = sets_;
                    for (PooledSet& set : changed)
                        if (set.pool == pool && set.tunes.size() > 2)
                            std::erase_if(set.tunes, [&](std::size_t tune) { return tune == first || tune == second; });
                    const bool still_there = std::any_of(changed.begin(), changed.end(), [&](const PooledSet& set) {
                        return set.pool == pool &&
                               std::any_of(set.tunes.begin(), set.tunes.end(),
                                           [&](std::size_t tune) { return tune == first || tune == second; });
                    });
                    if (still_there) break;
                    changed.insert(changed.begin() + static_cast<std::ptrdiff_t>(at), {pool, {first, second}});
                    if (keep_if_better(std::move(changed))) return true;
                }
            }
    return false;
}

void EveningSearch::improve() {
    bool any = true;
    while (any && is_settled()) {
        any = exchange_tunes();
        any = reorder_sets() || any;
        any = exchange_sets() || any;
        any = lengthen_or_shorten() || any;
        any = found_set() || any;
    }
}

}  // namespace repertoire
