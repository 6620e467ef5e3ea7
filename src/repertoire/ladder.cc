#include "repertoire/ladder.h"

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <limits>
#include <tuple>

namespace repertoire {

namespace {

class Climb {
public:
    Climb(std::span<const TuneMatter> candidates, std::size_t target, const LoadWeights& weights)
        : candidates_(candidates), target_(target), weights_(weights) {}

    int points_of(const TuneMatter& tune, const Learner& learner) const {
        const Load load = load_of(tune, learner);
        int points = 0;
        for (const LoadPart part : {LoadPart::notes, LoadPart::strikes, LoadPart::bars})
            points += weights_[part] * load.tenths_of(part);
        return points;
    }

    // What is left of the tune for somebody who has learnt `tune` too.
    int left_after(const TuneMatter& tune, const Learner& learner) const {
        return points_of(candidates_[target_], learnt(tune, learner));
    }

    // `before` must outlive what is returned.
    static Learner learnt(const TuneMatter& tune, const Learner& before) {
        Learner learner;
        learner.have = before.have | tune.needed;
        learner.bars = BarStock(&before.bars);
        learner.bars.add(tune.figures);
        return learner;
    }

    // Tries every order of at most kMostStones of these, the ladder so far being `stones_` at the cost of `squares`.
    void try_all(const std::vector<std::size_t>& stones, const Learner& learner, std::int64_t squares) {
        const std::int64_t last = points_of(candidates_[target_], learner);
        if (squares + last * last < best_squares_) {
            best_squares_ = squares + last * last;
            best_ = stones_;
        }
        if (stones_.size() == kMostStones) return;
        for (const std::size_t stone : stones) {
            if (std::find(stones_.begin(), stones_.end(), stone) != stones_.end()) continue;
            const std::int64_t points = points_of(candidates_[stone], learner);
            if (squares + points * points >= best_squares_) continue;
            const Learner next = learnt(candidates_[stone], learner);
            if (points_of(candidates_[target_], next) == last) continue;  // it brings nothing any more
            stones_.push_back(stone);
            try_all(stones, next, squares + points * points);
            stones_.pop_back();
        }
    }

    const std::vector<std::size_t>& best() const noexcept { return best_; }

private:
    std::span<const TuneMatter> candidates_;
    std::size_t target_;
    const LoadWeights& weights_;
    std::vector<std::size_t> stones_, best_;
    std::int64_t best_squares_ = std::numeric_limits<std::int64_t>::max();
};

// Different bars of the tune that the stone brings.
int shared_with(const TuneMatter& stone, const TuneMatter& tune, const BarStock& known) {
    std::vector<Figure> shared;
    std::set_intersection(stone.figures.begin(), stone.figures.end(), tune.figures.begin(), tune.figures.end(),
                          std::back_inserter(shared));
    return static_cast<int>(shared.size()) - known.count_known(shared);
}

}  // namespace

Ladder find_ladder(std::span<const TuneMatter> candidates, std::size_t target, const Learner& learner,
                   const LoadWeights& weights) {
    const TuneMatter& tune = candidates[target];
    Climb climb(candidates, target, weights);
    Ladder ladder;
    ladder.points_at_once = climb.points_of(tune, learner);

    std::vector<std::tuple<int, const std::string*, tune::TuneId, std::size_t>> ranked;
    for (std::size_t at = 0; at < candidates.size(); ++at) {
        if (at == target || !candidates[at].needed.is_within(learner.have | tune.needed)) continue;
        if (candidates[at].id == tune.id) continue;
        const int left = climb.left_after(candidates[at], learner);
        if (left < ladder.points_at_once)
            ranked.emplace_back(left, &candidates[at].folded_title, candidates[at].id, at);
    }
    std::sort(ranked.begin(), ranked.end(), [](const auto& one, const auto& other) {
        return std::tie(std::get<0>(one), *std::get<1>(one), std::get<2>(one)) <
               std::tie(std::get<0>(other), *std::get<1>(other), std::get<2>(other));
    });
    ladder.stones_possible = ranked.size();
    ladder.is_best = ranked.size() <= kMostTried;
    if (!ladder.is_best) ranked.resize(kMostTried);
    std::vector<std::size_t> stones;
    for (const auto& each : ranked) stones.push_back(std::get<3>(each));

    climb.try_all(stones, learner, 0);
    Learner so_far = learner;
    std::vector<std::size_t> rungs = climb.best();
    rungs.push_back(target);
    for (const std::size_t at : rungs) {
        Rung rung;
        rung.tune = at;
        rung.load = load_of(candidates[at], so_far);
        rung.points = climb.points_of(candidates[at], so_far);
        rung.brings = candidates[at].needed.without(so_far.have) & tune.needed;
        rung.shared_bars = shared_with(candidates[at], tune, so_far.bars);
        so_far.have = so_far.have | candidates[at].needed;
        so_far.bars.add(candidates[at].figures);
        ladder.rungs.push_back(std::move(rung));
    }
    return ladder;
}

}  // namespace repertoire
