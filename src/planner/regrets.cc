// Exact: the rest is planned anew after each alternative. That is most of the time a path takes, and little of it, for
// what is left falls into smaller blocks than the whole did. Tested by tests/unit/planner/regrets_test.cc.
#include "planner/regrets.h"

#include <optional>

#include "planner/note_problem.h"
#include "planner/ordering.h"

namespace planner {
namespace {

class Alternatives {
public:
    Alternatives(const Task& task, const Goal& goal, const Deadline& deadline)
        : task_(task),
          goal_(goal),
          deadline_(deadline),
          waiting_(gather_demands(task.wanted, goal.have, task.groups)),
          due_(task.due) {}

    void learn(const music::NoteSet& leads) {
        learnt_ = learnt_ | leads;
        waiting_ = demands_after(waiting_, leads);
        due_ = due_after(due_, leads).value_or(std::vector<Due>{});
    }

    // What everything costs from here when `leads` come next. Empty when that is not proven, or too late.
    std::optional<std::int64_t> least_cost_by(const music::NoteSet& leads) const {
        const std::optional<std::vector<Due>> due = due_after(due_, leads);
        if (!due) return std::nullopt;
        const std::optional<Ordering> rest = order_demands(demands_after(waiting_, leads), goal_.have | learnt_ | leads,
                                                           task_.groups, *due, goal_.limits, deadline_);
        if (!rest || !rest->is_proven()) return std::nullopt;
        return weight_of(waiting_) * task_.groups.time_of(leads) + rest->cost;
    }

    bool is_too_late(const music::NoteSet& leads) const { return !due_after(due_, leads); }

    std::int64_t cost_of_rest(std::span<const int> order) const { return cost_of(waiting_, order, task_.groups); }

private:
    const Task& task_;
    const Goal& goal_;
    const Deadline& deadline_;
    music::NoteSet learnt_;
    std::vector<Demand> waiting_;
    std::vector<Due> due_;
};

}  // namespace

void weigh_alternatives(const Task& task, const Goal& goal, std::span<const int> order, const Deadline& deadline,
                        std::vector<Step>& steps) {
    Alternatives alternatives(task, goal, deadline);
    std::size_t place = 0;
    for (Step& step : steps) {
        if (!step.is_asked_for) {
            const std::int64_t best = alternatives.cost_of_rest(order.subspan(place));
            const auto weigh = [&](RunnerUp& other) {
                other.is_too_late = alternatives.is_too_late(other.add);
                if (const auto cost = alternatives.least_cost_by(other.add)) other.costs_more = *cost - best;
            };
            for (RunnerUp& other : step.runners_up) weigh(other);
            if (step.greedy) weigh(*step.greedy);
        }
        alternatives.learn(step.add);
        place += static_cast<std::size_t>(step.add.size());
    }
}

}  // namespace planner
