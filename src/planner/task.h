// A goal made ready for planning: groups joined, what must come before woven into what is needed, and the tunes no path
// leads to put aside.
#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "planner/block_problem.h"
#include "planner/goal.h"
#include "planner/note_groups.h"

namespace planner {

// For every lead all leads that come before it, itself included.
using Befores = std::array<music::NoteSet, music::kMidiNotes>;

struct Task {
    NoteGroups groups;
    Befores befores;
    std::vector<Wanted> wanted;   // those that can open, with all that has to be learnt for them
    std::int64_t never_open = 0;  // tunes that need an avoided note
    std::vector<int> first;       // leads the path begins with
    std::vector<Due> due;         // each later and larger than the one before; steps count from the start

    // Leads of the groups that `needed` lacks.
    music::NoteSet missing(const music::NoteSet& needed, const music::NoteSet& have) const {
        return groups.leads_of(needed.without(have));
    }
};

// The order with every lead that comes too early moved to right after the last of those that come before it. No tune
// opens later for that: whatever needs the lead needs those too.
std::vector<int> keep_befores(std::span<const int> order, const Befores& befores);

// Throws GoalFault for what contradicts itself or cannot be met.
Task make_task(std::span<const Wanted> wanted, const Goal& goal);

}  // namespace planner
