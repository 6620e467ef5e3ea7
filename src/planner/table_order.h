// The least-cost order of a block by a table over all sets of its units.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "music/note_set.h"
#include "planner/block_problem.h"
#include "planner/deadline.h"

namespace planner {

// Tables that would take more bytes are folded to half their size. Source: house choice: folding is slower by a few
// percent and keeps the rule for ties only in part, so it is left to tables that are a burden.
constexpr std::size_t kFoldAboveBytes = std::size_t{128} << 20;

// Bytes the table takes: 4 MiB for 20 units, 128 MiB for 25 and, folded, for 26, 1 GiB for 29; twice that where costs
// need 64 bits. Beyond 40 units the greatest number.
std::uint64_t table_bytes(const BlockProblem& problem, std::size_t fold_above = kFoldAboveBytes) noexcept;

struct TableOrder {
    std::vector<int> units;  // in learning order
    std::int64_t cost = 0;
    std::size_t states = 0;  // sets of units
};

// Among least-cost orders the one that meets more weight next, then takes the easier unit (see ease.h); `known` is
// there at the start. A folded table learns the unit that least is waiting for as late as any least-cost order does.
// Empty when the deadline passed first. Throws std::bad_alloc when the table finds no memory.
std::optional<TableOrder> order_by_table(const BlockProblem& problem, const music::NoteSet& known,
                                         const Deadline& deadline, std::size_t fold_above = kFoldAboveBytes);

}  // namespace planner
