// In which order the notes of a course come: the path of the planner, in time for what must come.
#pragma once

#include <cstddef>
#include <vector>

#include "music/note_set.h"
#include "planner/goal.h"
#include "planner/plan.h"
#include "syllabus/course.h"

namespace syllabus {

// A tune that has to be open once so many steps have come.
struct StepDue {
    std::size_t tune = 0;   // into Course::tunes
    std::size_t steps = 0;  // 1 or more
};

// The path from the notes that are there, with nothing that a player's instrument lacks. Where the dues cannot all be
// kept, the fewest of them are given up: those of `dues` that stand in no other way first. Throws planner::GoalFault
// where Course::first contradicts itself.
planner::Plan order_steps(const Course& course, const music::NoteSet& have, const std::vector<StepDue>& dues);

}  // namespace syllabus
