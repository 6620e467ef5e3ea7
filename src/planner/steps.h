// An order told as steps: what each opens, and what could have been learnt instead.
#pragma once

#include <span>
#include <vector>

#include "planner/goal.h"
#include "planner/plan.h"
#include "planner/task.h"

namespace planner {

// `order` holds the leads of every group that tunes still lack. Each is a step, except where no single one would open
// anything: there those up to and including the one that opens something are one step. What the task begins with stays
// apart step by step.
//
// Runners-up of a step of one group are single groups; of several, the other sets of as many groups or fewer that open
// something and could not leave out a group. Only those that open something are named.
std::vector<Step> tell_steps(const Task& task, const Goal& goal, std::span<const int> order);

}  // namespace planner
