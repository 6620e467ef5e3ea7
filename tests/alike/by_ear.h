// Phrases as somebody has them in the ear, looked for in all the published books.
#pragma once

#include <vector>

#include "support/books.h"

namespace alike {

// Prints the table. `checks`: fewer phrases, and false where a floor is not reached.
bool measure_by_ear(const std::vector<support::BookTune>& tunes, bool checks);

}  // namespace alike
