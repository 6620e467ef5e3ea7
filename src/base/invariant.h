// Our own bugs: checked in every build, never used for input.
#pragma once

#include <cstdio>
#include <cstdlib>

namespace base {

[[noreturn]] inline void broken_invariant(const char* condition, const char* file, int line) {
    std::fprintf(stderr, "gamut: internal error: %s does not hold (%s:%d)\n", condition, file, line);
    std::abort();
}

}  // namespace base

#define INVARIANT(condition) \
    ((condition) ? static_cast<void>(0) : ::base::broken_invariant(#condition, __FILE__, __LINE__))
