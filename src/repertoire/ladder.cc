#include "repertoire/ladder.h"

#include <algorithm>
#include <cstdint>
#include <map>
#include <set>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "repertoire/ladder_search.h"

namespace repertoire {

namespace {

int points_of(const TuneMatter& tune, const Learner& learner, const LoadWeights& weights) {
    const Load load = load_of(tune, learner);
    int points = 0;
    for (const LoadPart part : {LoadPart::notes, LoadPart::strikes, LoadPart::bars})
        points += weights[part] * load.tenths_of(part);
    return points;
}

// Different bars of the tune that the stone brings.
int shared_with(const TuneMatter& stone, const TuneMatter& tune, const BarStock& known) {
    return static_cast<int>(std::count_if(tune.figures.begin(), tune.figures.end(), [&](Figure figure) {
        return std::binary_search(stone.figures.begin(), stone.figures.end(), figure) && !known.has(figure);
    }));
}

// Numbers the notes and figures that are new to the learner and that more tunes than one ask for.
class Things {
public:
    Things(const std::vector<const TuneMatter*>& tunes, const Learner& learner, const LoadWeights& weights)
        : learner_(learner), weights_(weights) {
        std::unordered_map<Figure, std::uint32_t> askers;
        for (const TuneMatter* tune : tunes)
            for (const auto& [figure, times] : unknown_figures(*tune)) ++askers[figure];
        std::uint32_t next = music::kMidiNotes;
        for (const auto& [figure, tunes_asking] : askers)
            if (tunes_asking > 1) number_of_.emplace(figure, next++);
    }

    Climbed climbed(const TuneMatter& tune) const {
        Climbed climbed;
        for (const int midi : tune.needed.without(learner_.have).midi_numbers()) {
            const auto struck = std::lower_bound(tune.struck.begin(), tune.struck.end(), std::pair(midi, 0));
            const int times = struck != tune.struck.end() && struck->first == midi ? struck->second : 0;
            climbed.asked.push_back(
                {static_cast<std::uint32_t>(midi),
                 10 * (std::int64_t{weights_[LoadPart::notes]} + std::int64_t{weights_[LoadPart::strikes]} * times)});
        }
        for (const auto& [figure, times] : unknown_figures(tune)) {
            const std::int64_t points = std::int64_t{10} * weights_[LoadPart::bars] * times;
            if (const auto number = number_of_.find(figure); number != number_of_.end())
                climbed.asked.push_back({number->second, points});
            else
                climbed.alone += points;
        }
        return climbed;
    }

private:
    std::map<Figure, int> unknown_figures(const TuneMatter& tune) const {
        std::map<Figure, int> times;
        for (const Figure figure : tune.figures)
            if (!learner_.bars.has(figure)) ++times[figure];
        return times;
    }

    const Learner& learner_;
    const LoadWeights& weights_;
    std::unordered_map<Figure, std::uint32_t> number_of_;
};

// Of each set of notes of the tune that stones bring the one that alone makes the best ladder, then the second of each,
// and so on: small steps are among them as well as wide ones. Ascending.
std::vector<std::size_t> try_first(const std::vector<const TuneMatter*>& stones, const LadderSearch& search,
                                   const music::NoteSet& lacking) {
    std::map<std::vector<int>, std::vector<std::pair<std::int64_t, std::size_t>>> by_notes;
    for (std::size_t at = 0; at < stones.size(); ++at)
        by_notes[(stones[at]->needed & lacking).midi_numbers()].emplace_back(search.squares_with(at), at);
    std::vector<std::tuple<std::size_t, std::int64_t, std::size_t>> ranked;  // turn, squares, stone
    for (auto& [notes, members] : by_notes) {
        std::sort(members.begin(), members.end());
        for (std::size_t turn = 0; turn < members.size(); ++turn)
            ranked.emplace_back(turn, members[turn].first, members[turn].second);
    }
    std::sort(ranked.begin(), ranked.end());
    if (ranked.size() > kTriedFirst) ranked.resize(kTriedFirst);
    std::vector<std::size_t> first;
    for (const auto& [turn, squares, at] : ranked) first.push_back(at);
    std::sort(first.begin(), first.end());
    return first;
}

}  // namespace

Ladder find_ladder(std::span<const TuneMatter> candidates, std::size_t target, const Learner& learner,
                   const LoadWeights& weights, std::int64_t most_evaluations) {
    const TuneMatter& tune = candidates[target];
    Ladder ladder;
    ladder.points_at_once = points_of(tune, learner, weights);

    std::vector<std::size_t> possible;  // into the candidates, as they are listed
    for (std::size_t at = 0; at < candidates.size(); ++at) {
        if (at == target || candidates[at].id == tune.id) continue;
        if (!candidates[at].needed.is_within(learner.have | tune.needed)) continue;
        Learner after;
        after.have = learner.have | candidates[at].needed;
        after.bars = BarStock(&learner.bars);
        after.bars.add(candidates[at].figures);
        if (points_of(tune, after, weights) < ladder.points_at_once) possible.push_back(at);
    }
    std::sort(possible.begin(), possible.end(), [&](std::size_t one, std::size_t other) {
        return std::tie(candidates[one].folded_title, candidates[one].id) <
               std::tie(candidates[other].folded_title, candidates[other].id);
    });
    ladder.stones_possible = possible.size();

    std::vector<const TuneMatter*> stones;
    for (const std::size_t at : possible) stones.push_back(&candidates[at]);
    std::vector<const TuneMatter*> tunes = stones;
    tunes.push_back(&tune);
    const Things things(tunes, learner, weights);
    std::vector<Climbed> climbed;
    for (const TuneMatter* stone : stones) climbed.push_back(things.climbed(*stone));
    LadderSearch search(std::move(climbed), things.climbed(tune));
    search.try_all(try_first(stones, search, tune.needed.without(learner.have)), most_evaluations);
    std::vector<std::size_t> all(stones.size());
    for (std::size_t at = 0; at < all.size(); ++at) all[at] = at;
    ladder.is_best = search.try_all(all, most_evaluations);

    std::vector<std::size_t> rungs;
    for (const std::size_t stone : search.best()) rungs.push_back(possible[stone]);
    rungs.push_back(target);
    Learner so_far = learner;
    for (const std::size_t at : rungs) {
        Rung rung;
        rung.tune = at;
        rung.load = load_of(candidates[at], so_far);
        rung.points = points_of(candidates[at], so_far, weights);
        rung.brings = candidates[at].needed.without(so_far.have) & tune.needed;
        rung.shared_bars = shared_with(candidates[at], tune, so_far.bars);
        so_far.have = so_far.have | candidates[at].needed;
        so_far.bars.add(candidates[at].figures);
        ladder.rungs.push_back(std::move(rung));
    }
    return ladder;
}

}  // namespace repertoire
