// Cost is the sum, over the places of the order, of the time of the unit there x the weight waiting before it. A run
// that is moved changes that weight only between its old place and its new one, so a run is slid along its neighbours,
// and each neighbour passed costs a few counts of what is waiting. Tested by tests/unit/planner/moves_test.cc.
#include "planner/moves.h"

#include <algorithm>
#include <cstddef>

#include "planner/ease.h"

namespace planner {
namespace {

constexpr std::size_t kLongestRun = 3;  // Source: house choice; from four units on hardly any move was found

std::uint64_t bit(int unit) noexcept { return std::uint64_t{1} << unit; }

// One order under improvement.
class Slider {
public:
    Slider(const BlockProblem& problem, std::vector<int> order) : problem_(problem), order_(std::move(order)) {
        count_waiting();
    }

    const std::vector<int>& order() const noexcept { return order_; }

    // Moves the run of `length` at `at` to the place where it costs least. True when that is another place.
    bool slide(std::size_t at, std::size_t length) {
        run_ = std::span<const int>(order_).subspan(at, length);
        const std::size_t to = best_place(at);
        if (to == at) return false;
        std::vector<int> before;
        if (!problem_.due.empty()) before = order_;
        const auto run = order_.begin() + static_cast<std::ptrdiff_t>(at);
        const auto run_end = run + static_cast<std::ptrdiff_t>(length);
        if (to > at)
            std::rotate(run, run_end, run_end + static_cast<std::ptrdiff_t>(to - at));
        else
            std::rotate(order_.begin() + static_cast<std::ptrdiff_t>(to), run, run_end);
        if (!problem_.due.empty() && !is_order_in_time(problem_, order_)) {
            order_ = std::move(before);
            return false;
        }
        count_waiting();
        return true;
    }

private:
    std::int64_t time(int unit) const { return problem_.units[static_cast<std::size_t>(unit)].time; }

    // What the run itself costs when learnt after `learnt`, where `waiting` is still waiting.
    std::int64_t cost_of_run(std::uint64_t learnt, std::int64_t waiting) const {
        std::int64_t cost = 0;
        for (const int unit : run_) {
            if (unit != run_.front()) waiting = problem_.waiting_after(learnt);
            cost += time(unit) * waiting;
            learnt |= bit(unit);
        }
        return cost;
    }

    // Places count without the run.
    std::size_t best_place(std::size_t at) const {
        std::uint64_t run_units = 0;
        for (const int unit : run_) run_units |= bit(unit);
        const std::int64_t run_cost = cost_of_run(learnt_[at], waiting_[at]);
        std::int64_t best_gain = 0;
        std::size_t best = at;

        std::int64_t gain = run_cost;  // of the neighbours passed, and of the run at its old place
        std::uint64_t learnt = learnt_[at];
        std::int64_t waiting = waiting_[at];
        for (std::size_t place = at + run_.size(); place < order_.size(); ++place) {
            gain += time(order_[place]) * (waiting_[place] - waiting);
            learnt |= bit(order_[place]);
            waiting = problem_.waiting_after(learnt);
            if (const std::int64_t total = gain - cost_of_run(learnt, waiting); total > best_gain) {
                best_gain = total;
                best = place - run_.size() + 1;
            }
        }
        gain = run_cost;
        for (std::size_t place = at; place-- > 0;) {
            gain += time(order_[place]) * (waiting_[place] - problem_.waiting_after(learnt_[place] | run_units));
            if (const std::int64_t total = gain - cost_of_run(learnt_[place], waiting_[place]); total > best_gain) {
                best_gain = total;
                best = place;
            }
        }
        return best;
    }

    void count_waiting() {
        learnt_.assign(1, 0);
        waiting_.assign(1, problem_.weight);
        for (const int unit : order_) {
            learnt_.push_back(learnt_.back() | bit(unit));
            waiting_.push_back(problem_.waiting_after(learnt_.back()));
        }
    }

    const BlockProblem& problem_;
    std::vector<int> order_;
    std::span<const int> run_;           // within order_
    std::vector<std::uint64_t> learnt_;  // before each place
    std::vector<std::int64_t> waiting_;  // before each place
};

std::int64_t met_by(std::span<const Demand> demands, const music::NoteSet& known) {
    std::int64_t weight = 0;
    for (const Demand& demand : demands) weight += demand.missing.is_within(known) ? demand.weight : 0;
    return weight;
}

music::NoteSet with(music::NoteSet set, int note) {
    set.add(note);
    return set;
}

// Learning `a` and then `b` after `before`, or the other way round.
bool costs_the_same(std::span<const Demand> demands, const music::NoteSet& before, int a, int b,
                    const NoteGroups& groups) {
    const std::int64_t after_a = met_by(demands, with(before, a));
    return after_a == met_by(demands, with(before, b)) &&
           (groups.time_of(a) == groups.time_of(b) || after_a == met_by(demands, before));
}

bool is_in_time(std::span<const Due> due, const music::NoteSet& learnt, std::size_t steps) {
    return std::all_of(due.begin(), due.end(), [&](const Due& one) {
        const auto left = static_cast<std::size_t>(one.leads.without(learnt).size());
        return left == 0 || steps + left <= static_cast<std::size_t>(one.steps);
    });
}

}  // namespace

std::vector<int> improve_by_moves(const BlockProblem& problem, std::vector<int> order) {
    Slider slider(problem, std::move(order));
    const std::size_t units = problem.units.size();
    for (bool has_moved = true; has_moved;) {
        has_moved = false;
        for (std::size_t length = 1; length <= kLongestRun; ++length)
            for (std::size_t at = 0; at + length <= units; ++at) has_moved |= slider.slide(at, length);
    }
    return slider.order();
}

std::vector<int> settle_ties(std::span<const Demand> demands, std::vector<int> order, const music::NoteSet& known,
                             const NoteGroups& groups, std::span<const Due> due) {
    // Each swap makes the order come first among those that begin alike, so this ends.
    std::vector<music::NoteSet> learnt{{}};  // before each place up to the present one
    for (std::size_t place = 0; place + 1 < order.size();) {
        const int first = order[place];
        const int second = order[place + 1];
        const music::NoteSet before = learnt.back();
        if (is_easier(second, first, known | before) && costs_the_same(demands, before, first, second, groups) &&
            is_in_time(due, with(before, second), place + 1)) {
            std::swap(order[place], order[place + 1]);
            if (place > 0) {
                --place;
                learnt.pop_back();
            }
        } else {
            learnt.push_back(with(before, first));
            ++place;
        }
    }
    return order;
}

}  // namespace planner
