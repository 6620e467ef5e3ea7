// What a term was asked for with and cannot be, and why. Inside this room only.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "music/note_set.h"
#include "syllabus/course.h"
#include "syllabus/timetable.h"

namespace syllabus {

constexpr std::size_t kNever = static_cast<std::size_t>(-1);

// What a must is once the lessons are known.
struct Wish {
    std::size_t tune = 0;  // into Course::tunes
    std::size_t by = 0;    // into the lessons still to be held; kNever where none comes in time
    std::size_t aim = 0;   // for which its notes are asked: `by`, or the first in which it can come where that is later
    Until until;
    bool is_beginning = false;  // of the term
};

// A course once its lessons are filled in; borrows what it is laid out with.
struct LaidOut {
    const Course& course;
    const std::vector<Lesson>& lessons;
    const Frame& frame;                    // a place for each of `held`
    const std::vector<std::size_t>& held;  // lessons that were to be planned, into `lessons`
    const std::vector<Wish>& wishes;
    const std::vector<std::size_t>& opens;  // for each of Course::tunes the steps that open it, or kNever
    music::NoteSet known;                   // before the first of `held`
    std::size_t most_steps = 0;             // that the course has still time for
};

// Steps that can have come with lesson `by` of the frame, counted from now.
std::size_t steps_by(const Frame& frame, std::size_t most_steps, std::size_t by);

std::vector<Telling> unmet_wishes(const LaidOut& laid_out);

// `wanted`: notes to begin with that were not there.
std::optional<Telling> unmet_notes(const LaidOut& laid_out, const music::NoteSet& wanted);

}  // namespace syllabus
