// A course laid on the lessons of a term.
#pragma once

#include <vector>

#include "syllabus/course.h"
#include "syllabus/syllabus.h"

namespace syllabus {

// `lessons` hold the dates of the whole term and which of them are lost; the first `fixed` of them stand as they are,
// the others are planned, whatever they held. Fills in lessons, closing sets, what is unmet, remarks and the outcome,
// and nothing else. What cannot be met is told in Syllabus::unmet and the nearest plan is made: with the notes in the
// order of the outcome, the fewest wishes missed, and of these the fewest that never come. Throws planner::GoalFault
// for notes to begin with that contradict themselves.
Syllabus lay_out(const Course& course, std::vector<Lesson> lessons, std::size_t fixed);

}  // namespace syllabus
