// The tunes of a term as sets to play through at its end.
#pragma once

#include <vector>

#include "syllabus/syllabus.h"

namespace syllabus {

// Tunes of one rhythm in twos and threes, in the order they were learnt; one that is the only one of its rhythm, or of
// no known rhythm, stands alone. Source: common practice, no source. Tunes of lessons that are not held are left out.
std::vector<ClosingSet> closing_sets(const std::vector<Lesson>& lessons);

}  // namespace syllabus
