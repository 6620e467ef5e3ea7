// Families on the published books: what is found, and what is called one tune wrongly.
#pragma once

#include <vector>

#include "support/books.h"

namespace alike {

// Prints the tables. `checks`: fewer variations, and false where a floor is not reached.
bool measure_families(const std::vector<support::BookTune>& tunes, bool checks, bool with_titles);

}  // namespace alike
