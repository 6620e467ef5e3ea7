// Which tunes are one: those of the same melody class, and those a person said are the same.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "collection/collection.h"

namespace collection {

// A tune as it is by itself.
struct LoneTune {
    std::int64_t id = 0;
    std::optional<std::int64_t> melody_class;
};

// For each of `tunes` (ascending by id) the least id of its family. What was said to be the same comes together in the
// order it was said, then tunes of one melody class; but two that were said not to be the same never do, nor do others
// through which they would. Words about unknown tunes say nothing.
std::vector<std::int64_t> heads_of(std::span<const LoneTune> tunes, std::span<const Verdict> said);

}  // namespace collection
