#include "repertoire/next_tune.h"

#include <algorithm>
#include <tuple>

namespace repertoire {

namespace {

class Choosing {
public:
    Choosing(std::span<const TuneMatter> candidates, const std::set<tune::TuneId>& wishes, const NextGoal& goal,
             const HandOf& hand_of)
        : candidates_(candidates), wishes_(wishes), goal_(goal), hand_of_(hand_of), hands_(candidates.size()) {}

    // The best for this learner of those that are not taken yet.
    std::optional<Pick> best_for(const Learner& learner) {
        std::vector<Pick> picks;
        for (std::size_t tune = 0; tune < candidates_.size(); ++tune) {
            if (taken_.contains(tune)) continue;
            Pick& pick = picks.emplace_back();
            pick.tune = tune;
            pick.is_wished = wishes_.contains(candidates_[tune].id);
            pick.asked = candidates_[tune].asked;
            judge_for(learner, pick);
        }
        const auto comes_before = [this](const Pick& one, const Pick& other) { return rank_of(one) < rank_of(other); };
        std::sort(picks.begin(), picks.end(), comes_before);
        // The hand only adds, so nothing behind a pick that is worse without it can be better.
        std::optional<Pick> best;
        for (Pick& pick : picks) {
            if (best && !comes_before(pick, *best)) break;
            pick.load.hand = hand_of(pick.tune);
            pick.points = points_of(pick);
            if (!best || comes_before(pick, *best)) best = pick;
        }
        if (best) taken_.insert(best->tune);
        return best;
    }

    void judge_for(const Learner& learner, Pick& pick) const {
        const std::optional<int> hand = pick.load.hand;
        pick.load = load_of(candidates_[pick.tune], learner);
        pick.load.hand = hand;
        pick.points = points_of(pick);
    }

private:
    int points_of(const Pick& pick) const {
        return weigh(pick.load, goal_.weights) - (pick.is_wished ? 10 * goal_.weights.wish : 0) -
               10 * goal_.weights.asked * pick.asked;
    }

    std::tuple<int, int, const std::string&, tune::TuneId> rank_of(const Pick& pick) const {
        const TuneMatter& tune = candidates_[pick.tune];
        return {goal_.is_short ? pick.load.bars_to_learn : 0, pick.points, tune.folded_title, tune.id};
    }

    std::optional<int> hand_of(std::size_t tune) {
        if (!hands_[tune]) hands_[tune] = hand_of_(tune);
        return *hands_[tune];
    }

    std::span<const TuneMatter> candidates_;
    const std::set<tune::TuneId>& wishes_;
    const NextGoal& goal_;
    const HandOf& hand_of_;
    std::vector<std::optional<std::optional<int>>> hands_;  // those asked for
    std::set<std::size_t> taken_;
};

}  // namespace

std::vector<Pick> pick_next(std::span<const TuneMatter> candidates, const Learner& learner,
                            const std::set<tune::TuneId>& wishes, const NextGoal& goal, const HandOf& hand_of) {
    Choosing choosing(candidates, wishes, goal, hand_of);
    std::vector<Pick> picks;
    Learner then = learner;
    while (picks.size() < goal.picks) {
        std::optional<Pick> pick = choosing.best_for(then);
        if (!pick) break;
        then.last_rhythms.insert(then.last_rhythms.begin(), candidates[pick->tune].rhythm);
        if (then.last_rhythms.size() > kLastTunes) then.last_rhythms.resize(kLastTunes);
        picks.push_back(std::move(*pick));
    }
    for (Pick& pick : picks) choosing.judge_for(learner, pick);
    return picks;
}

}  // namespace repertoire
