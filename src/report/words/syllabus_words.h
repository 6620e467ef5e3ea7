// What the lessons of a term are put into words with. Inside this room only.
#pragma once

#include <string>
#include <vector>

#include "syllabus/syllabus.h"

namespace report {

std::string notes_in_words(const syllabus::Lesson& lesson);                    // `C5`; empty without
std::string news_in_words(const syllabus::Lesson& lesson);                     // `C5: Lamp; Stove`; empty without
std::string titles_in_words(const std::vector<syllabus::TermTune>& tunes);     // parted by semicolons
std::string titles_with_rhythm(const std::vector<syllabus::TermTune>& tunes);  // `Lamp (jig)`
std::string lesson_in_words(const syllabus::Lesson& lesson);                   // in one line, without its date
std::string minutes_in_words(int seconds);                                     // `about 5 minutes`
std::string criterion_in_words(syllabus::Criterion criterion);

}  // namespace report
