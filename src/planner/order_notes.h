// The learning path: in which order to learn the missing notes so that tunes open as early as possible.
#pragma once

#include <span>

#include "planner/deadline.h"
#include "planner/goal.h"
#include "planner/plan.h"

namespace planner {

// A path of least cost (see Plan) among those that keep to the goal, with its proof, or the best path found and a bound
// where the limits end the proof.
//
// Notes that no waiting tune needs are never learnt unless the goal begins with them or has them before another.
// Between orders of equal cost the one is taken that opens more now, then learns a natural before an accidental, then
// the note nearer to those known, then the lower one. The answer is the same for any order of `wanted`, and the same
// every time unless the seconds of the limits end the proof.
//
// No tune's note set may be empty, no weight negative, and the weights together at most kMaxTotalWeight. Throws
// GoalFault for a goal that contradicts itself or that no path meets, and otherwise only for want of memory.
Plan plan_path(std::span<const Wanted> wanted, const Goal& goal);
// The same by a deadline that other questions share, instead of the seconds of the goal.
Plan plan_path(std::span<const Wanted> wanted, const Goal& goal, const Deadline& deadline);

}  // namespace planner
