// What a teacher should know of a term that is laid out, as kinds and numbers.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "syllabus/course.h"
#include "syllabus/syllabus.h"

namespace syllabus {

// Of the lessons from `fixed` on, which are planned; those before it stand.

// Lessons that bring many notes at once, and a last lesson that brings something new.
std::vector<Telling> remarks_on_groups(const std::vector<Lesson>& lessons, std::size_t fixed);

// Places for new tunes that no tune can take.
std::vector<Telling> remarks_on_empty_places(std::int64_t places);

// Tunes that somebody can play already.
std::vector<Telling> remarks_on_known(const Course& course, const std::vector<Lesson>& lessons, std::size_t fixed);

// Lessons that bring nothing new because they are the first after a long break.
std::vector<Telling> remarks_on_breaks(const std::vector<Lesson>& lessons, std::size_t fixed);

}  // namespace syllabus
