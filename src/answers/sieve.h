// What a filter keeps away.
#pragma once

#include <cstdint>
#include <string_view>

namespace answers {

// A filter that was given, and how many tunes do not pass it.
struct Sieve {
    // A token of collection::FilterBy; of notes `fits`, `for` or `instrument`, as they were given;
    // `reach` where notes may be lacking and an instrument has not even those. Static storage.
    std::string_view filter;
    std::int64_t fails = 0;
};

}  // namespace answers
