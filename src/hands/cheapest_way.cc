// Which usual ways cost least together cannot be said note by note: a note's best way hangs on those of its neighbours.
// So: play the line as if a second way cost nothing for the notes not settled yet. That can only be too cheap, so it is
// a bound; and where it makes each of those notes by the first way of its table it is a way to play. Else settle the
// note it makes otherwise most often, each of its ways in turn, and go on from there. Tested by trying every way of
// every note against every choice of usual ways.
#include "hands/cheapest_way.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "hands/time_before.h"
#include "hands/way_search.h"

namespace hands {

using instruments::Instrument;
using instruments::Motion;
using instruments::MotionCosts;
using instruments::Way;

namespace {

class SteadySearch {
public:
    SteadySearch(const std::vector<LineNote>& line, const Instrument& instrument, const MotionCosts& costs)
        : instrument_(instrument), search_(line, instrument, costs) {}

    CheapestWay run() {
        UsualWays usual{};
        settle(usual, 0);
        if (given_up_) best_->lower_bound = std::min(best_->cost, *given_up_);
        return std::move(*best_);
    }

private:
    using Uses = std::map<const Way*, int>;

    // `bound` is what the way to here costs at least.
    void settle(UsualWays& usual, std::int64_t bound) {
        if (best_ && searches_ >= kMostSearches) {
            given_up_ = std::min(given_up_.value_or(bound), bound);
            return;
        }
        ++searches_;
        CheapestWay found = search_.run(usual);
        if (best_ && !is_better(found, *best_)) return;
        const auto open = most_unsettled(found, usual);
        if (!open) {
            best_ = std::move(found);
            return;
        }
        const auto& [midi, uses] = *open;
        for (const Way* way : in_order(midi, uses)) {
            usual[static_cast<std::size_t>(midi)] = way;
            settle(usual, found.cost);
        }
        usual[static_cast<std::size_t>(midi)] = nullptr;
    }

    static bool is_better(const CheapestWay& a, const CheapestWay& b) {
        return std::tie(a.cost, a.fingers_moved) < std::tie(b.cost, b.fingers_moved);
    }

    // The note without a usual way that is made oftenest by another than the first of its table; the lowest of equals.
    std::optional<std::pair<int, Uses>> most_unsettled(const CheapestWay& found, const UsualWays& usual) const {
        std::map<int, Uses> by_note;
        for (const Stroke& stroke : found.strokes)
            if (stroke.way != nullptr && usual[static_cast<std::size_t>(stroke.note.midi)] == nullptr)
                ++by_note[stroke.note.midi][stroke.way];
        std::optional<std::pair<int, Uses>> most;
        int most_often = 0;
        for (const auto& [midi, uses] : by_note) {
            const Way* usually = &instrument_.note(midi)->ways.front();
            int otherwise = 0;
            for (const auto& [way, count] : uses) otherwise += way == usually ? 0 : count;
            if (otherwise > most_often) {
                most = {midi, uses};
                most_often = otherwise;
            }
        }
        return most;
    }

    // All ways of a note, the most used first, then as in the table.
    std::vector<const Way*> in_order(int midi, const Uses& uses) const {
        std::vector<const Way*> ways;
        for (const Way& way : instrument_.note(midi)->ways) ways.push_back(&way);
        const auto count = [&uses](const Way* way) {
            const auto found = uses.find(way);
            return found == uses.end() ? 0 : found->second;
        };
        std::stable_sort(ways.begin(), ways.end(),
                         [&count](const Way* a, const Way* b) { return count(a) > count(b); });
        return ways;
    }

    const Instrument& instrument_;
    WaySearch search_;
    std::optional<CheapestWay> best_;
    int searches_ = 0;
    std::optional<std::int64_t> given_up_;  // the least bound of what was not looked at
};

}  // namespace

CheapestWay find_cheapest_way(const std::vector<LineNote>& top_line, const Instrument& instrument,
                              const MotionCosts& costs) {
    if (costs[static_cast<std::size_t>(Motion::second_way)] == 0) return WaySearch(top_line, instrument, costs).run({});
    return SteadySearch(top_line, instrument, costs).run();
}

int fewest(Motion motion, const std::vector<LineNote>& top_line, const Instrument& instrument) {
    if (motion == Motion::second_way) return 0;
    std::vector<LineNote> unhurried = top_line;  // so that quick ones count like others
    for (LineNote& note : unhurried) {
        note.length = kAllTheTime;
        note.rest_before = {};
    }
    MotionCosts costs{};
    costs[static_cast<std::size_t>(motion)] = 1;
    return count_of(find_cheapest_way(unhurried, instrument, costs).motions, motion);
}

std::optional<HardestBar> hardest_bar(const CheapestWay& way) {
    const auto costs_more = [](const HardestBar& a, const HardestBar& b) {
        return a.cost * a.beats.denominator() * b.beats.numerator() >
               b.cost * b.beats.denominator() * a.beats.numerator();
    };
    std::optional<HardestBar> hardest;
    for (std::size_t at = 0; at < way.strokes.size();) {
        const LineNote& first = way.strokes[at].note;
        HardestBar bar{first.bar, 0, first.bar_beats, {}};
        for (; at < way.strokes.size() && way.strokes[at].note.bar_index == first.bar_index; ++at) {
            bar.cost += way.strokes[at].cost;
            for (std::size_t motion = 0; motion < bar.motions.size(); ++motion)
                bar.motions[motion] += way.strokes[at].motions[motion];
        }
        if (bar.cost > 0 && (!hardest || costs_more(bar, *hardest))) hardest = bar;
    }
    return hardest;
}

}  // namespace hands
