// One block in the form the exact methods work on: at most 64 units of notes, numbered densely, and what of it is due
// when.
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

// Groups of notes that occur in exactly the same demands are one unit: some least-cost order learns them one right
// after the other.
struct Unit {
    music::NoteSet leads;
    std::int64_t time = 0;   // to learn them all
    std::int64_t steps = 1;  // how many groups they are
};

struct UnitDemand {
    std::uint64_t units = 0;  // bit u: unit u is missing
    std::int64_t weight = 0;
};

// Groups that have to be learnt by the time so many have been.
struct Due {
    music::NoteSet leads;
    std::int64_t steps = 0;
};

struct UnitsDue {
    std::uint64_t units = 0;
    std::int64_t steps = 0;
};

struct BlockProblem {
    std::vector<Unit> units;  // by their lowest leads
    std::vector<UnitDemand> demands;
    std::vector<UnitsDue> due;
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
    std::int64_t steps_of(std::uint64_t set) const noexcept {
        std::int64_t sum = 0;
        for (; set != 0; set &= set - 1) sum += units[static_cast<std::size_t>(std::countr_zero(set))].steps;
        return sum;
    }
    // Everything due can still be learnt in time after `learnt`, or has been. Of a set that was in time itself: what
    // was late on the way here is not seen.
    bool is_in_time(std::uint64_t learnt) const noexcept {
        for (const UnitsDue& one : due)
            if ((one.units & ~learnt) != 0 && steps_of(learnt | one.units) > one.steps) return false;
        return true;
    }
    // Weight of the demands that `learnt` does not meet.
    std::int64_t waiting_after(std::uint64_t learnt) const noexcept {
        std::int64_t sum = 0;
        for (const UnitDemand& demand : demands) sum += (demand.units & ~learnt) != 0 ? demand.weight : 0;
        return sum;
    }
};

// Empty when there are more than kMaxUnits units. What is due must be among the leads of the demands, each entry the
// union of some demands.
std::optional<BlockProblem> number_units(std::span<const Demand> demands, const NoteGroups& groups,
                                         std::span<const Due> due = {});

// What is left of a block once `learnt` is learnt, its units numbered anew. Demands that have come to lack the same
// stay apart.
struct RestOfBlock {
    BlockProblem problem;
    std::vector<int> units;  // their numbers in the whole block
};
RestOfBlock rest_after(const BlockProblem& problem, std::uint64_t learnt);

// An order of units as an order of leads.
std::vector<int> spell_out(const BlockProblem& problem, std::span<const int> unit_order);

// Costs count as in note_problem.h.
std::int64_t cost_of_units(const BlockProblem& problem, std::span<const int> unit_order);

// All that is due is learnt in time.
bool is_order_in_time(const BlockProblem& problem, std::span<const int> unit_order) noexcept;

}  // namespace planner
