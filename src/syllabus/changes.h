// What is different between two plans of a term.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "syllabus/syllabus.h"

namespace syllabus {

// A lesson that is not the same in both; missing where one plan is shorter.
struct Change {
    std::size_t lesson = 0;  // from 0
    std::optional<Lesson> before;
    std::optional<Lesson> after;
};

std::vector<Change> changes_between(const Syllabus& before, const Syllabus& after);

}  // namespace syllabus
