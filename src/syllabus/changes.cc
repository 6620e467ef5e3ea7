#include "syllabus/changes.h"

#include <algorithm>

namespace syllabus {

std::vector<Change> changes_between(const Syllabus& before, const Syllabus& after) {
    const auto lesson_of = [](const Syllabus& syllabus, std::size_t at) {
        return at < syllabus.lessons.size() ? std::optional(syllabus.lessons[at]) : std::nullopt;
    };
    std::vector<Change> changes;
    for (std::size_t at = 0; at < std::max(before.lessons.size(), after.lessons.size()); ++at) {
        Change change{at, lesson_of(before, at), lesson_of(after, at)};
        if (change.before != change.after) changes.push_back(std::move(change));
    }
    return changes;
}

}  // namespace syllabus
