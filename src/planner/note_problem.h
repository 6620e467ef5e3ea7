// What is left to plan once the known notes are taken away: which sets of notes are waited for, and by how much.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/goal.h"
#include "planner/note_groups.h"

namespace planner {

// All waiting tunes that lack the same groups of notes.
struct Demand {
    music::NoteSet missing;  // the leads of the groups (note_groups.h)
    std::int64_t weight = 0;
    std::int64_t tunes = 0;

    friend bool operator==(const Demand&, const Demand&) = default;
};

// Total order of note sets by their lowest difference: the set that has the lower note comes first.
bool comes_before(const music::NoteSet& a, const music::NoteSet& b) noexcept;

// One demand for each different set of missing groups, in the order of comes_before; tunes that lack nothing are left
// out.
std::vector<Demand> gather_demands(std::span<const Wanted> wanted, const music::NoteSet& have,
                                   const NoteGroups& groups);

// The same after the groups with the leads `learnt` have been learnt as well.
std::vector<Demand> demands_after(std::span<const Demand> demands, const music::NoteSet& learnt);

// The demands that lie wholly within `leads`, in their order.
std::vector<Demand> demands_within(std::span<const Demand> demands, const music::NoteSet& leads);

music::NoteSet leads_of(std::span<const Demand> demands) noexcept;
std::int64_t weight_of(std::span<const Demand> demands) noexcept;

// The sum of weight x time at which a demand is met when the groups are learnt in this order. `order` holds leads, each
// once, and must meet every demand.
std::int64_t cost_of(std::span<const Demand> demands, std::span<const int> order, const NoteGroups& groups);

}  // namespace planner
