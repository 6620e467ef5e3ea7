// Tested by tests/unit/planner/own_order_test.cc.
#include "planner/own_order.h"

#include "planner/order_notes.h"

namespace planner {
namespace {

std::int64_t open_by(const Plan& plan, std::int64_t time) {
    std::int64_t open = plan.open_now;
    for (const Step& step : plan.steps)
        if (step.time <= time) open = step.open;
    return open;
}

bool is_proven(const Plan& plan) { return plan.proof == Proof::optimal; }

}  // namespace

OwnOrder weigh_own_order(std::span<const Wanted> wanted, const Goal& goal, const std::vector<int>& order,
                         const Deadline& deadline) {
    OwnOrder own;
    Goal terms = goal;
    terms.first.clear();
    terms.max_steps = 0;
    own.best = plan_path(wanted, terms, deadline);
    terms.weigh_alternatives = false;
    terms.first = order;
    own.completed = plan_path(wanted, terms, deadline);

    // Where notes are learnt together, several of the order may be one step.
    Plan shorter = own.best;
    terms.first.clear();
    std::size_t given = 0;
    for (const Step& step : own.completed.steps) {
        if (!step.is_asked_for) break;
        while (given < order.size() && step.add.has(order[given])) terms.first.push_back(order[given++]);
        const Plan longer = given < order.size() ? plan_path(wanted, terms, deadline) : own.completed;
        OwnStep& row = own.steps.emplace_back();
        row.add = step.add;
        row.opens = step.opens;
        row.open = step.open;
        row.time = step.time;
        row.best_open = open_by(own.best, step.time);
        if (is_proven(shorter) && is_proven(longer)) row.loses = static_cast<std::int64_t>(longer.cost - shorter.cost);
        shorter = longer;
    }
    return own;
}

}  // namespace planner
