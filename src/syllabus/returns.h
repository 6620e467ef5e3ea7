// When tunes come back.
#pragma once

#include <string>
#include <vector>

#include "syllabus/syllabus.h"

namespace syllabus {

// A tune comes back in the next lesson, and once more in the first lesson after that which is held kSoonest to kLatest
// days after it was new; where there is none, in the first one later. Source: common practice, no source.
constexpr std::chrono::days kSoonest{14};
constexpr std::chrono::days kLatest{21};

// Fills in Lesson::again from lesson `first` on; the lessons before stand. Returns what there is to say about it.
std::vector<std::string> plan_returns(std::vector<Lesson>& lessons, std::size_t first);

}  // namespace syllabus
