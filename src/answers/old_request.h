// What terms were asked for with when they were kept as the words of a command line.
#pragma once

#include <string>
#include <vector>

#include "answers/term_request.h"

namespace answers {

// `--from=2027-01-12`, `--ornaments`. These words are what they were when they were kept: no option of today. Throws
// syllabus::StoredFault for what was never written so.
TermRequest read_old_request(const std::vector<std::string>& words);

}  // namespace answers
