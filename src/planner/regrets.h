// What it would cost to go another way at a step.
#pragma once

#include <span>
#include <vector>

#include "planner/deadline.h"
#include "planner/plan.h"
#include "planner/task.h"

namespace planner {

// Fills in RunnerUp::costs_more of the runners-up and of what greedy would take, which hold leads, as tell_steps makes
// them. `order` is the whole path and must be proven; steps it was told to begin with are left out, for there the path
// may not be the best.
void weigh_alternatives(const Task& task, const Goal& goal, std::span<const int> order, const Deadline& deadline,
                        std::vector<Step>& steps);

}  // namespace planner
