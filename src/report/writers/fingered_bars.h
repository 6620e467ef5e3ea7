// Bars with fingerings in plain text, side by side.
#pragma once

#include <cstddef>
#include <string>

#include "report/document.h"

namespace report {

// Lines of at most `columns`, as long as a note has room; a bar too long for one goes on below.
std::string draw_fingered_bars(const FingeredBars& bars, std::size_t columns);

}  // namespace report
