// What is told of a plan, in words.
#pragma once

#include <string>
#include <vector>

#include "syllabus/telling.h"

namespace report {

std::string in_words(const syllabus::Telling& telling);  // one sentence, or two
std::vector<std::string> in_words(const std::vector<syllabus::Telling>& tellings);

}  // namespace report
