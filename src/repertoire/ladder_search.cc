// Depth first. On every rung the cost and the gain of each stone are kept up by what became known, so that a stone is
// looked at in a step; the last stone is the least of a list. Tested by ladder_test.cc.
#include "repertoire/ladder_search.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "repertoire/ladder.h"

namespace repertoire {

namespace {

// The least sum of squares of so many rungs that cost `owed` together, the last of them `top` or more.
std::int64_t least_squares(std::int64_t owed, std::int64_t top, std::size_t rungs) {
    const auto number = static_cast<std::int64_t>(rungs);
    if (rungs <= 1 || top * number <= owed) return owed * owed / number;
    const std::int64_t others = std::max<std::int64_t>(0, owed - top);
    return top * top + others * others / (number - 1);
}

}  // namespace

LadderSearch::LadderSearch(std::vector<Climbed> stones, Climbed top)
    : stones_(std::move(stones)), top_(std::move(top)) {
    std::size_t things = 0;
    const auto count = [&things](const Climbed& tune) {
        for (const Asked& asked : tune.asked) things = std::max<std::size_t>(things, asked.thing + 1);
    };
    std::for_each(stones_.begin(), stones_.end(), count);
    count(top_);
    points_of_top_.resize(things);
    for (const Asked& asked : top_.asked) points_of_top_[asked.thing] = asked.points;
    least_ = points_of_top_;
    for (const Climbed& stone : stones_)
        for (const Asked& asked : stone.asked) least_[asked.thing] = std::min(least_[asked.thing], asked.points);
    askers_.resize(things);
    known_.resize(things);
}

std::int64_t LadderSearch::squares_with(std::size_t stone) const {
    std::int64_t points = stones_[stone].alone, left = top_.alone;
    for (const Asked& asked : top_.asked) left += asked.points;
    for (const Asked& asked : stones_[stone].asked) {
        points += asked.points;
        left -= points_of_top_[asked.thing];
    }
    return points * points + left * left;
}

bool LadderSearch::try_all(std::span<const std::size_t> stones, std::int64_t most_evaluations) {
    tried_.assign(stones.begin(), stones.end());
    evaluations_left_ = most_evaluations;
    for (auto& askers : askers_) askers.clear();
    Standing standing;
    standing.top = standing.owed = top_.alone;
    for (const Asked& asked : top_.asked) {
        standing.top += asked.points;
        standing.owed += least_[asked.thing];
    }
    for (std::size_t place = 0; place < tried_.size(); ++place) {
        const Climbed& stone = stones_[tried_[place]];
        std::int64_t cost = stone.alone, gain = 0;
        for (const Asked& asked : stone.asked) {
            askers_[asked.thing].emplace_back(place, asked.points);
            cost += asked.points;
            gain += points_of_top_[asked.thing];
        }
        standing.cost.push_back(cost);
        standing.gain.push_back(gain);
    }
    climb(standing, 0);
    return evaluations_left_ >= 0;
}

LadderSearch::Standing LadderSearch::learn(const Standing& standing, std::size_t place) {
    Standing next = standing;
    evaluations_left_ -= static_cast<std::int64_t>(tried_.size());
    for (const Asked& asked : stones_[tried_[place]].asked) {
        if (known_[asked.thing]) continue;
        known_[asked.thing] = 1;
        learnt_.push_back(asked.thing);
        const std::int64_t of_top = points_of_top_[asked.thing];
        next.top -= of_top;
        next.owed -= least_[asked.thing];
        for (const auto& [other, points] : askers_[asked.thing]) {
            next.cost[other] -= points;
            next.gain[other] -= of_top;
        }
    }
    return next;
}

void LadderSearch::forget(std::size_t learnt) {
    for (; learnt_.size() > learnt; learnt_.pop_back()) known_[learnt_.back()] = 0;
}

bool LadderSearch::can_win(std::int64_t least, std::size_t stones) const {
    return least < best_squares_ || (least == best_squares_ && stones <= best_.size());
}

void LadderSearch::offer(std::int64_t squares, const std::vector<std::size_t>& rungs) {
    if (squares > best_squares_) return;
    if (squares == best_squares_ && (rungs.size() != best_.size() ? rungs.size() > best_.size() : !(rungs < best_)))
        return;
    best_squares_ = squares;
    best_ = rungs;
}

void LadderSearch::climb(const Standing& standing, std::int64_t squares) {
    offer(squares + standing.top * standing.top, rungs_);
    const std::size_t more = kMostStones - rungs_.size();
    if (more == 1) return try_last(standing, squares);

    std::vector<std::pair<std::int64_t, std::size_t>> places;  // what promises most first
    for (std::size_t place = 0; place < tried_.size(); ++place) {
        if (standing.gain[place] == 0) continue;
        const std::int64_t left = standing.top - standing.gain[place];
        places.emplace_back(standing.cost[place] * standing.cost[place] + left * left, place);
    }
    std::sort(places.begin(), places.end());
    std::vector<std::int64_t> gains(standing.gain);
    std::partial_sort(gains.begin(), gains.begin() + static_cast<std::ptrdiff_t>(std::min(more, gains.size())),
                      gains.end(), std::greater<>());
    std::int64_t later = 0;  // at most, by the stones behind the next
    for (std::size_t at = 0; at < std::min(more - 1, gains.size()); ++at) later += gains[at];
    for (const auto& [promise, place] : places) {
        if (evaluations_left_ < 0) return;
        const std::int64_t now = squares + standing.cost[place] * standing.cost[place];
        const std::int64_t least_top = std::max(top_.alone, standing.top - standing.gain[place] - later);
        if (!can_win(now + least_top * least_top, rungs_.size() + 1)) continue;
        const std::size_t learnt = learnt_.size();
        const Standing next = learn(standing, place);
        if (can_win(now + least_squares(next.owed, least_top, more), rungs_.size() + 1)) {
            rungs_.push_back(tried_[place]);
            climb(next, now);
            rungs_.pop_back();
        }
        forget(learnt);
    }
}

// A stone that brings nothing leaves the top as it is, so that the same ladder without it is offered and wins.
void LadderSearch::try_last(const Standing& standing, std::int64_t squares) {
    evaluations_left_ -= static_cast<std::int64_t>(tried_.size());
    std::int64_t least = std::numeric_limits<std::int64_t>::max();
    std::size_t best = tried_.size();
    for (std::size_t place = 0; place < tried_.size(); ++place) {
        const std::int64_t left = standing.top - standing.gain[place];
        const std::int64_t sum = standing.cost[place] * standing.cost[place] + left * left;
        if (sum < least) {
            least = sum;
            best = place;
        }
    }
    if (best == tried_.size() || !can_win(squares + least, rungs_.size() + 1)) return;
    rungs_.push_back(tried_[best]);
    offer(squares + least, rungs_);
    rungs_.pop_back();
}

}  // namespace repertoire
