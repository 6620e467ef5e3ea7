// Tested by tests/unit/planner/order_notes_test.cc and instances_test.cc.
#include "planner/order_notes.h"

#include <algorithm>
#include <vector>

#include "base/invariant.h"
#include "planner/greedy_order.h"
#include "planner/note_problem.h"
#include "planner/ordering.h"
#include "planner/regrets.h"
#include "planner/steps.h"
#include "planner/task.h"

namespace planner {
namespace {

// The beginning the goal asks for costs what it costs; the rest is ordered as well as it can be.
struct Path {
    Ordering ordering;
    std::int64_t greedy_cost = 0;
};

Path find_path(const Task& task, const Goal& goal, const Deadline& deadline) {
    const std::vector<Demand> demands = gather_demands(task.wanted, goal.have, task.groups);
    std::int64_t cost_of_beginning = 0;
    music::NoteSet begun;
    std::vector<Demand> waiting = demands;
    for (const int lead : task.first) {
        cost_of_beginning += weight_of(waiting) * task.groups.time_of(lead);
        begun.add(lead);
        waiting = demands_after(demands, begun);
    }
    // make_task has seen to it that all can be in time.
    const std::optional<std::vector<Due>> due = due_after(task.due, begun);
    INVARIANT(due);
    std::optional<Ordering> rest = order_demands(waiting, goal.have | begun, task.groups, *due, goal.limits, deadline);
    INVARIANT(rest);

    Path path{std::move(*rest), 0};
    path.ordering.leads = keep_befores(path.ordering.leads, task.befores);
    path.ordering.leads.insert(path.ordering.leads.begin(), task.first.begin(), task.first.end());
    if (!goal.before.empty())
        path.ordering.cost = cost_of(demands, path.ordering.leads, task.groups);
    else
        path.ordering.cost += cost_of_beginning;
    path.ordering.lower_bound += cost_of_beginning;
    std::vector<int> greedy = task.first;
    for (const int lead : greedy_order(waiting, task.groups)) greedy.push_back(lead);
    path.greedy_cost = cost_of(demands, greedy, task.groups);
    INVARIANT(cost_of(demands, path.ordering.leads, task.groups) == path.ordering.cost &&
              path.ordering.lower_bound <= path.ordering.cost);
    return path;
}

// From leads to the notes of their groups.
void spell_groups(const NoteGroups& groups, std::vector<Step>& steps) {
    for (Step& step : steps) {
        step.add = groups.notes_under(step.add);
        for (RunnerUp& other : step.runners_up) other.add = groups.notes_under(other.add);
        if (step.greedy) step.greedy->add = groups.notes_under(step.greedy->add);
    }
}

}  // namespace

Plan plan_path(std::span<const Wanted> wanted, const Goal& goal) {
    return plan_path(wanted, goal, Deadline(goal.limits));
}

Plan plan_path(std::span<const Wanted> wanted, const Goal& goal, const Deadline& deadline) {
    const Task task = make_task(wanted, goal);
    const Path path = find_path(task, goal, deadline);

    Plan plan;
    plan.tunes = static_cast<std::int64_t>(wanted.size());
    for (const Wanted& tune : wanted)
        if (tune.needed.is_within(goal.have)) plan.ids_open_now.push_back(tune.id);
    std::sort(plan.ids_open_now.begin(), plan.ids_open_now.end());
    plan.open_now = static_cast<std::int64_t>(plan.ids_open_now.size());
    plan.never_open = task.never_open;
    plan.cost = static_cast<double>(path.ordering.cost);
    plan.lower_bound = static_cast<double>(path.ordering.lower_bound);
    plan.greedy_cost = static_cast<double>(path.greedy_cost);
    plan.proof = path.ordering.is_proven() ? Proof::optimal : Proof::gap;
    plan.states = path.ordering.states;
    plan.largest_block = path.ordering.largest_block;
    plan.groups_to_learn = path.ordering.leads.size();
    plan.steps = tell_steps(task, goal, path.ordering.leads);
    if (plan.proof == Proof::optimal && goal.weigh_alternatives)
        weigh_alternatives(task, goal, path.ordering.leads, deadline, plan.steps);
    spell_groups(task.groups, plan.steps);
    return plan;
}

}  // namespace planner
