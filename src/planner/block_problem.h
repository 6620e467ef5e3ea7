// One block in the form the exact methods work on: at most 64 units of notes, numbered densely.
#pragma once

#include <bit>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/note_problem.h"

namespace planner {

constexpr std::size_t kMaxUnits = 64;

// Notes that occur in exactly the same demands are one unit: some least-cost order learns them one right after the
// other.
struct Unit {
    music::NoteSet notes;
    std::int64_t time = 0;  // to learn them all
};

struct UnitDemand {
    std::uint64_t units = 0;  // bit u: unit u is missing
    std::int64_t weight = 0;
};

struct BlockProblem {
    std::vector<Unit> units;  // by their lowest notes
    std::vector<UnitDemand> demands;
    std::int64_t weight = 0;  // of all demands
    std::int64_t time = 0;    // of all units

    std::uint64_t all_units() const noexcept {
        return units.size() == kMaxUnits ? ~std::uint64_t{0} : (std::uint64_t{1} << units.size()) - 1;
    }
    std::int64_t time_of(std::uint64_t set) const noexcept {
        std::int64_t sum = 0;
        for (; set != 0; set &= set - 1) sum += units[static_cast<std::size_t>(std::countr_zero(set))].time;
        return sum;
    }
    // Weight of the demands that `learnt` does not meet.
    std::int64_t waiting_after(std::uint64_t learnt) const noexcept {
        std::int64_t sum = 0;
        for (const UnitDemand& demand : demands) sum += (demand.units & ~learnt) != 0 ? demand.weight : 0;
        return sum;
    }
};

// Empty when there are more than kMaxUnits units.
std::optional<BlockProblem> number_units(std::span<const Demand> demands);

// What is left of a block once `learnt` is learnt, its units numbered anew. Demands that have come to lack the same
// stay apart.
struct RestOfBlock {
    BlockProblem problem;
    std::vector<int> units;  // their numbers in the whole block
};
RestOfBlock rest_after(const BlockProblem& problem, std::uint64_t learnt);

// An order of units as an order of MIDI numbers.
std::vector<int> spell_out(const BlockProblem& problem, std::span<const int> unit_order);

// Costs count as in note_problem.h.
std::int64_t cost_of_units(const BlockProblem& problem, std::span<const int> unit_order);

}  // namespace planner
