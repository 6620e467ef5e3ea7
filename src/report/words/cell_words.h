// A cell of a table as people read it, whatever the writer. Inside this room only.
#pragma once

#include <string>

#include "report/document.h"

namespace report {

// `25.0 %`
std::string share_in_words(const Share& share);

// `75:05`: minutes and seconds.
std::string clock_in_words(const Duration& duration);

// `-` for what nobody knows, nothing for what goes on from above. Several texts stand one a line.
std::string cell_in_words(const Cell& cell);

bool is_number(const Cell& cell);

}  // namespace report
