// A stretch of a source file, in byte offsets into its decoded text: half open, from 0.
#pragma once

#include <cstdint>

namespace base {

struct Span {
    std::uint32_t begin = 0;
    std::uint32_t end = 0;

    friend bool operator==(const Span&, const Span&) = default;
};

}  // namespace base
