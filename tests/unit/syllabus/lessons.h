// Lessons for tests: dates and titles, nothing else.
#pragma once

#include <string>
#include <vector>

#include "syllabus/syllabus.h"

namespace lessons {

inline syllabus::TermTune tune(std::int64_t id, const std::string& title, const std::string& rhythm = "jig") {
    syllabus::TermTune tune;
    tune.id = {id};
    tune.title = title;
    tune.rhythm = rhythm;
    tune.seconds = 60;
    return tune;
}

// One new tune in each, titled A, B, C ...; none in the last.
inline std::vector<syllabus::Lesson> weekly(const std::vector<std::string>& dates) {
    std::vector<syllabus::Lesson> made;
    for (std::size_t at = 0; at < dates.size(); ++at) {
        syllabus::Lesson lesson;
        lesson.date = base::read_date(dates[at]);
        if (at + 1 < dates.size())
            lesson.tunes.push_back(tune(static_cast<std::int64_t>(at), std::string(1, static_cast<char>('A' + at))));
        made.push_back(lesson);
    }
    return made;
}

inline std::string titles(const std::vector<syllabus::TermTune>& tunes) {
    std::string all;
    for (const syllabus::TermTune& tune : tunes) all += tune.title;
    return all;
}

}  // namespace lessons
