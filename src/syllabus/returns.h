// When tunes come back.
#pragma once

#include <vector>

#include "syllabus/syllabus.h"

namespace syllabus {

// A tune comes back in the next lesson, and once more kSoonest to kLatest days after it was new: in the last lesson of
// that time, so that the second gap is longer than the first; where none is held then, in the first one later.
// Source: common practice, no source; that gaps grow: N. J. Cepeda and others, Psychological Science 19, 2008.
constexpr std::chrono::days kSoonest{14};
constexpr std::chrono::days kLatest{21};

// Fills in Lesson::again from lesson `first` on; the lessons before stand, and what came back in them counts. Returns
// what there is to say about it.
std::vector<Telling> plan_returns(std::vector<Lesson>& lessons, std::size_t first);

}  // namespace syllabus
