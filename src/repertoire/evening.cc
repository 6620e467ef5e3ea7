#include "repertoire/evening.h"

#include <algorithm>
#include <map>
#include <utility>

#include "repertoire/evening_search.h"

namespace repertoire {

namespace {

// At even distances where there are more than may be.
std::vector<std::size_t> at_most(const std::vector<std::size_t>& tunes, std::size_t most) {
    if (tunes.size() <= most) return tunes;
    std::vector<std::size_t> kept;
    for (std::size_t at = 0; at < most; ++at) kept.push_back(tunes[at * tunes.size() / most]);
    return kept;
}

RhythmPool pool_of(const std::vector<TuneShape>& candidates, std::vector<std::size_t> tunes, const EveningGoal& goal) {
    RhythmPool pool;
    pool.tunes = std::move(tunes);
    std::map<std::string, int> keys;
    for (const std::size_t tune : pool.tunes) {
        const TuneShape& shape = candidates[tune];
        pool.seconds.push_back(seconds_of(shape, goal).value_or(0));
        const std::string key = shape.key ? music::to_string(*shape.key) : "";
        pool.keys.push_back(keys.emplace(key, static_cast<int>(keys.size())).first->second);
    }
    for (const std::size_t first : pool.tunes)
        for (const std::size_t second : pool.tunes) {
            const std::optional<Follow> found = follow(candidates[first], candidates[second]);
            pool.points.push_back(found && !has_same_opening(*found) ? found->points : kNoJoin);
        }
    return pool;
}

}  // namespace

std::optional<int> seconds_of(const TuneShape& tune, const EveningGoal& goal) {
    const std::optional<Pace> pace = pace_of(tune.rhythm);
    if (!pace || tune.bars <= 0) return std::nullopt;
    const int bars = are_parts_repeated(tune, goal) ? 2 * tune.bars : tune.bars;
    const int beats = goal.times * bars * beats_in_bar(*pace, tune.meter);
    const int a_minute = pace->beats_a_minute(goal.pace);
    return (60 * beats + a_minute / 2) / a_minute;
}

bool are_parts_repeated(const TuneShape& tune, const EveningGoal& goal) {
    return tune.is_printed_once && !goal.as_printed;
}

bool has_whole_parts(const TuneShape& tune) {
    const int bars = tune.meter == "12/8" ? 2 * tune.bars : tune.bars;
    return bars > 0 && bars % kBarsOfPart == 0;
}

Evening plan_evening(const std::vector<TuneShape>& candidates, const EveningGoal& goal) {
    Evening evening;
    evening.considered = static_cast<std::int64_t>(candidates.size());
    evening.most_of_rhythm = std::max(kMostOfRhythm, static_cast<std::size_t>(goal.minutes));
    std::map<std::string, std::vector<std::size_t>> by_rhythm;
    for (std::size_t at = 0; at < candidates.size(); ++at) {
        if (!seconds_of(candidates[at], goal))
            ++evening.without_pace;
        else if (goal.for_dance && !has_whole_parts(candidates[at]))
            ++evening.odd_length;
        else
            by_rhythm[candidates[at].rhythm].push_back(at);
    }
    std::vector<RhythmPool> pools;
    std::int64_t tunes = 0, seconds = 0;
    for (auto& [rhythm, members] : by_rhythm) {
        if (members.size() < 2) {
            ++evening.without_company;
            continue;
        }
        std::sort(members.begin(), members.end(),
                  [&](std::size_t a, std::size_t b) { return comes_before(candidates[a], candidates[b]); });
        std::vector<std::size_t> kept = at_most(members, evening.most_of_rhythm);
        evening.not_looked_at += static_cast<std::int64_t>(members.size() - kept.size());
        pools.push_back(pool_of(candidates, std::move(kept), goal));
        for (const int each : pools.back().seconds) seconds += each;
        tunes += static_cast<std::int64_t>(pools.back().size());
    }
    const int mean = tunes == 0 ? 0 : static_cast<int>(seconds / tunes);
    EveningSearch search(pools, goal, 60 * goal.minutes + mean / 2);  // over by half a tune at most
    search.build();
    search.improve();
    for (const PooledSet& pooled : search.sets()) {
        const RhythmPool& pool = pools[pooled.pool];
        EveningSet& set = evening.sets.emplace_back();
        for (std::size_t at = 0; at < pooled.tunes.size(); ++at) {
            EveningTune& tune = set.tunes.emplace_back();
            tune.tune = pool.tunes[pooled.tunes[at]];
            tune.seconds = pool.seconds[pooled.tunes[at]];
            if (at > 0) tune.join = follow(candidates[set.tunes[at - 1].tune], candidates[tune.tune]);
        }
        set.rhythm = candidates[set.tunes.front().tune].rhythm;
    }
    evening.seconds = search.seconds();
    evening.is_settled = search.is_settled();
    // Source: house choice: with one set more it would be over by as much as it is short now.
    const int half_a_set = mean * goal.in_set / 2;
    evening.is_filled = evening.seconds >= 60 * goal.minutes - half_a_set && !evening.sets.empty();
    return evening;
}

}  // namespace repertoire
