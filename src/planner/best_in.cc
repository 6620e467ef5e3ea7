// Tested by tests/unit/planner/best_in_test.cc.
#include "planner/best_in.h"

#include "planner/cover.h"
#include "planner/goal_fault.h"
#include "planner/note_problem.h"
#include "planner/order_notes.h"
#include "planner/task.h"

namespace planner {

BestIn best_in(std::span<const Wanted> wanted, const Goal& goal, std::size_t steps, const Deadline& deadline) {
    const Task task = make_task(wanted, goal);
    const std::vector<Demand> demands = gather_demands(task.wanted, goal.have, task.groups);
    music::NoteSet forced;
    for (const int lead : task.first) forced.add(lead);
    for (const Due& one : task.due) forced = forced | one.leads;
    if (static_cast<std::size_t>(forced.size()) > steps)
        throw GoalFault(TooMuchForced{forced.size(), static_cast<std::int64_t>(steps)});

    const CoverAnswer answer = best_cover(demands, {steps, forced, 1}, goal.limits, deadline);
    const music::NoteSet chosen = answer.covers.empty() ? forced : answer.covers.front().notes;
    // Notes that only fill up the number are left out: they might not even be allowed.
    const std::vector<Demand> met = demands_within(demands, chosen);
    const music::NoteSet leads = leads_of(met) | forced;

    BestIn best;
    best.add = task.groups.notes_under(leads);
    best.steps = static_cast<std::size_t>(leads.size());
    best.met = weight_of(met);
    best.upper_bound = answer.upper_bound;
    best.states = answer.states;
    Goal within = goal;
    for (const Wanted& tune : task.wanted) within.avoid = within.avoid | tune.needed.without(goal.have | best.add);
    std::erase_if(within.before, [&best](const Before& pair) { return !best.add.has(pair.then); });
    best.path = plan_path(wanted, within, deadline);
    return best;
}

}  // namespace planner
