#include "repertoire/next_tune.h"

#include <algorithm>
#include <map>
#include <string>
#include <tuple>
#include <utility>

namespace repertoire {

namespace {

class Choosing {
public:
    Choosing(std::span<const TuneMatter> candidates, const Learner& learner, const std::set<tune::TuneId>& wishes,
             const NextGoal& goal, const HandOf& hand_of)
        : candidates_(candidates), goal_(goal), hand_of_(hand_of) {
        for (std::size_t tune = 0; tune < candidates_.size(); ++tune) {
            Pick& pick = picks_.emplace_back();
            pick.tune = tune;
            pick.load = load_of(candidates_[tune], learner);
            pick.is_wished = wishes.contains(candidates_[tune].id);
            pick.asked = candidates_[tune].asked;
            pick.points = points_of(pick);
        }
    }

    // The best of those that are not taken yet.
    std::optional<Pick> take_best() {
        const auto comes_before = [this](const Pick& one, const Pick& other) { return rank_of(one) < rank_of(other); };
        std::sort(picks_.begin(), picks_.end(), comes_before);
        // The hand only adds, so nothing behind a pick that is worse without it can be better.
        std::size_t best = 0;
        for (std::size_t at = 0; at < picks_.size(); ++at) {
            if (at > 0 && !comes_before(picks_[at], picks_[best])) break;
            weigh_hand(picks_[at]);
            if (comes_before(picks_[at], picks_[best])) best = at;
        }
        if (picks_.empty()) return std::nullopt;
        Pick taken = std::move(picks_[best]);
        picks_.erase(picks_.begin() + static_cast<std::ptrdiff_t>(best));
        return taken;
    }

    // Those behind it are better of another rhythm.
    void count_rhythm_of(const Pick& pick) {
        if (const std::string& rhythm = candidates_[pick.tune].rhythm; !rhythm.empty()) ++taken_of_[rhythm];
    }

    // As listed, whatever their rhythms.
    void put_in_order(std::span<Pick> picks) {
        taken_of_.clear();
        std::sort(picks.begin(), picks.end(),
                  [this](const Pick& one, const Pick& other) { return rank_of(one) < rank_of(other); });
    }

private:
    int points_of(const Pick& pick) const {
        return weigh(pick.load, goal_.weights) - (pick.is_wished ? 10 * goal_.weights.wish : 0) -
               10 * goal_.weights.asked * pick.asked;
    }

    void weigh_hand(Pick& pick) {
        if (!asked_.insert(pick.tune).second) return;
        pick.load.hand = hand_of_(pick.tune);
        pick.points = points_of(pick);
    }

    std::tuple<int, int, const std::string&, tune::TuneId> rank_of(const Pick& pick) const {
        const TuneMatter& tune = candidates_[pick.tune];
        const auto same = taken_of_.find(tune.rhythm);
        const int for_variety = same == taken_of_.end() ? 0 : 10 * goal_.weights[LoadPart::rhythm] * same->second;
        return {goal_.is_short ? pick.load.bars_to_learn : 0, pick.points + for_variety, tune.folded_title, tune.id};
    }

    std::span<const TuneMatter> candidates_;
    const NextGoal& goal_;
    const HandOf& hand_of_;
    std::vector<Pick> picks_;              // not taken yet
    std::set<std::size_t> asked_;          // candidates whose hand is known
    std::map<std::string, int> taken_of_;  // picks of each rhythm
};

}  // namespace

NextPicks pick_next(std::span<const TuneMatter> candidates, const Learner& learner,
                    const std::set<tune::TuneId>& wishes, const NextGoal& goal, const HandOf& hand_of,
                    const TwinOf& twin_of) {
    Choosing choosing(candidates, learner, wishes, goal, hand_of);
    NextPicks next;
    while (next.picks.size() < goal.picks) {
        std::optional<Pick> pick = choosing.take_best();
        if (!pick) break;
        if (const auto twin = pick->is_wished ? std::nullopt : twin_of(pick->tune, next.picks)) {
            next.held_back.push_back({pick->tune, *twin});
            continue;
        }
        choosing.count_rhythm_of(*pick);
        next.picks.push_back(std::move(*pick));
    }
    if (next.picks.size() > 1) choosing.put_in_order(std::span(next.picks).subspan(1));
    return next;
}

}  // namespace repertoire
