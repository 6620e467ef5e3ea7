// A least-cost order meets one demand after another, so only unions of demands are looked at, layer by layer of the
// time they take to learn. From each, one of the smallest ways to meet something more comes next (outlook.h). A set is
// not followed when the cheapest way to it and the bound on the rest exceed the best order known.
//
// Every cheapest way to a set is kept, not one alone: all least-cost orders are then known in the end, and the rule for
// ties (order_notes.h) picks among them as it does in a full table. Tested by
// tests/unit/planner/bounded_search_test.cc.
#include "planner/bounded_search.h"

#include <algorithm>
#include <limits>
#include <unordered_map>
#include <utility>

#include "base/invariant.h"
#include "planner/ease.h"
#include "planner/outlook.h"

namespace planner {
namespace {

constexpr std::uint32_t kNone = std::numeric_limits<std::uint32_t>::max();

struct State {
    std::uint64_t learnt = 0;
    std::int64_t cost = 0;           // the least on the way here
    std::int64_t to_come = 0;        // no way from here to the end costs less
    std::uint32_t last_way = kNone;  // a list of the cheapest ways here, into ways_
};

struct Way {
    std::uint32_t from;  // a state
    std::uint32_t next;  // in the list
};

class LayeredSearch {
public:
    LayeredSearch(const BlockProblem& problem, std::int64_t best_cost)
        : problem_(problem),
          outlook_(problem),
          best_cost_(best_cost),
          layers_(static_cast<std::size_t>(problem.time) + 1),
          prices_of_(layers_.size()),
          state_of_(layers_.size()) {
        outlook_.look_from(0);
        states_.push_back({0, 0, outlook_.least_beyond(0, {}, best_cost), kNone});
        layers_[0].push_back(0);
        prices_of_[0].assign(outlook_.prices().begin(), outlook_.prices().end());
    }

    // False when the limits ended it.
    bool run(std::size_t max_states, const Deadline& deadline) {
        for (; layer_ + 1 < layers_.size(); ++layer_) {
            state_of_[layer_] = {};  // nothing arrives here any more
            for (done_in_layer_ = 0; done_in_layer_ < layers_[layer_].size(); ++done_in_layer_) {
                if (states_.size() > max_states || (done_in_layer_ % 64 == 63 && deadline.has_passed())) return false;
                follow(layers_[layer_][done_in_layer_]);
            }
            prices_of_[layer_] = {};
        }
        return true;
    }

    std::size_t states() const noexcept { return states_.size(); }

    // When it was ended early: what the states not yet followed leave possible.
    std::int64_t lower_bound() const {
        std::int64_t least = best_cost_;
        for (std::size_t layer = layer_; layer < layers_.size(); ++layer)
            for (std::size_t i = layer == layer_ ? done_in_layer_ : 0; i < layers_[layer].size(); ++i) {
                const State& state = states_[layers_[layer][i]];
                least = std::min(least, state.cost + state.to_come);
            }
        return least;
    }

    // When it came to its end: the least cost and, by the rule for ties, its order.
    std::int64_t least_cost() const { return states_[layers_.back().front()].cost; }

    std::vector<int> order(const music::NoteSet& known) const {
        const std::unordered_map<std::uint32_t, std::vector<std::uint32_t>> onward = cheapest_ways_onward();
        std::vector<int> units;
        music::NoteSet notes = known;
        for (std::uint32_t at = 0; states_[at].learnt != problem_.all_units();) {
            std::vector<int> best_units;
            std::uint32_t best = kNone;
            for (const std::uint32_t then : onward.at(at)) {
                std::vector<int> added = by_ease(states_[then].learnt & ~states_[at].learnt, notes);
                if (best != kNone && !comes_first(then, added, best, best_units, notes)) continue;
                best = then;
                best_units = std::move(added);
            }
            units.insert(units.end(), best_units.begin(), best_units.end());
            for (const int unit : best_units) notes = notes | notes_of(unit);
            at = best;
        }
        return units;
    }

private:
    const music::NoteSet& notes_of(int unit) const { return problem_.units[static_cast<std::size_t>(unit)].leads; }

    void follow(std::uint32_t at) {
        const State state = states_[at];
        if (state.cost + state.to_come > best_cost_) return;
        outlook_.look_from(state.learnt);
        const auto units = static_cast<std::ptrdiff_t>(problem_.units.size());
        const auto prices = prices_of_[layer_].begin() + static_cast<std::ptrdiff_t>(done_in_layer_) * units;
        prices_here_.assign(prices, prices + units);
        for (const std::uint64_t way : outlook_.smallest_ways()) arrive(at, way);
    }

    void arrive(std::uint32_t from, std::uint64_t way) {
        const std::int64_t time = problem_.time_of(way);
        const std::size_t layer = layer_ + static_cast<std::size_t>(time);
        const std::int64_t cost = states_[from].cost + time * outlook_.waiting();
        const std::uint64_t learnt = states_[from].learnt | way;
        if (!problem_.is_in_time(learnt)) return;
        const auto [entry, is_new] = state_of_[layer].try_emplace(learnt, static_cast<std::uint32_t>(states_.size()));
        if (is_new) {
            const std::int64_t to_come = outlook_.least_beyond(way, prices_here_, best_cost_ - cost);
            layers_[layer].push_back(entry->second);
            states_.push_back({learnt, cost, to_come, kNone});
            prices_of_[layer].insert(prices_of_[layer].end(), outlook_.prices().begin(), outlook_.prices().end());
        }
        State& state = states_[entry->second];
        if (cost > state.cost) return;
        if (cost < state.cost) state.last_way = kNone;
        state.cost = cost;
        ways_.push_back({from, state.last_way});
        state.last_way = static_cast<std::uint32_t>(ways_.size() - 1);
    }

    // For each state on some least-cost order, the states that may come next.
    std::unordered_map<std::uint32_t, std::vector<std::uint32_t>> cheapest_ways_onward() const {
        std::unordered_map<std::uint32_t, std::vector<std::uint32_t>> onward;
        std::vector<std::uint32_t> unseen{layers_.back().front()};
        while (!unseen.empty()) {
            const std::uint32_t then = unseen.back();
            unseen.pop_back();
            for (std::uint32_t way = states_[then].last_way; way != kNone; way = ways_[way].next) {
                const auto [entry, is_new] = onward.try_emplace(ways_[way].from);
                entry->second.push_back(then);
                if (is_new) unseen.push_back(entry->first);
            }
        }
        return onward;
    }

    // The easiest first, then what is easiest beside it, and so on.
    std::vector<int> by_ease(std::uint64_t set, music::NoteSet known) const {
        std::vector<int> units;
        for (; set != 0; set &= set - 1) units.push_back(std::countr_zero(set));
        for (auto next = units.begin(); next != units.end(); ++next) {
            std::iter_swap(next, std::min_element(next, units.end(), [&](int a, int b) {
                               return is_easier(notes_of(a), notes_of(b), known);
                           }));
            known = known | notes_of(*next);
        }
        return units;
    }

    // The rule for ties, unit by unit: more met at once, then the easier unit. Of a way only the last unit meets
    // anything.
    bool comes_first(std::uint32_t a, const std::vector<int>& a_units, std::uint32_t b, const std::vector<int>& b_units,
                     music::NoteSet known) const {
        const auto [a_unit, b_unit] = std::mismatch(a_units.begin(), a_units.end(), b_units.begin(), b_units.end());
        INVARIANT(a_unit != a_units.end() && b_unit != b_units.end());  // neither way lies within the other
        const bool a_is_last = a_unit + 1 == a_units.end();
        const bool b_is_last = b_unit + 1 == b_units.end();
        if (a_is_last != b_is_last) return a_is_last;
        if (a_is_last) {
            const std::int64_t a_waiting = problem_.waiting_after(states_[a].learnt);
            const std::int64_t b_waiting = problem_.waiting_after(states_[b].learnt);
            if (a_waiting != b_waiting) return a_waiting < b_waiting;
        }
        for (auto same = a_units.begin(); same != a_unit; ++same) known = known | notes_of(*same);
        return is_easier(notes_of(*a_unit), notes_of(*b_unit), known);
    }

    const BlockProblem& problem_;
    Outlook outlook_;
    std::int64_t best_cost_;
    std::vector<Outlook::Price> prices_here_;
    std::vector<State> states_;
    std::vector<Way> ways_;
    std::vector<std::vector<std::uint32_t>> layers_;      // states by the time they take
    std::vector<std::vector<Outlook::Price>> prices_of_;  // of each state of a layer, one after another
    std::vector<std::unordered_map<std::uint64_t, std::uint32_t>> state_of_;  // by what is learnt, for layers to come
    std::size_t layer_ = 0;
    std::size_t done_in_layer_ = 0;
};

}  // namespace

SearchOrder order_by_search(const BlockProblem& problem, const music::NoteSet& known, std::span<const int> start,
                            std::size_t max_states, const Deadline& deadline) {
    SearchOrder answer;
    answer.cost = cost_of_units(problem, start);
    LayeredSearch search(problem, answer.cost);
    if (search.run(max_states, deadline)) {
        answer.units = search.order(known);
        answer.cost = answer.lower_bound = search.least_cost();
        INVARIANT(cost_of_units(problem, answer.units) == answer.cost);
    } else {
        answer.units.assign(start.begin(), start.end());
        answer.lower_bound = search.lower_bound();
    }
    answer.states = search.states();
    return answer;
}

}  // namespace planner
