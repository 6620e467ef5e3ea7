// What is left to plan once the known notes are taken away: which sets of notes are waited for, and by how much.
#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/goal.h"

namespace planner {

// All waiting tunes that lack the same notes.
struct Demand {
    music::NoteSet missing;
    std::int64_t weight = 0;
    std::int64_t tunes = 0;

    friend bool operator==(const Demand&, const Demand&) = default;
};

// Total order of note sets by their lowest difference: the set that has the lower note comes first.
bool comes_before(const music::NoteSet& a, const music::NoteSet& b) noexcept;

// One demand for each different set of missing notes, in the order of comes_before; tunes that lack nothing are left
// out.
std::vector<Demand> gather_demands(std::span<const Wanted> wanted, const music::NoteSet& have);

// The same after `learnt` has been learnt as well.
std::vector<Demand> demands_after(std::span<const Demand> demands, const music::NoteSet& learnt);

// The demands that lie wholly within `notes`, in their order.
std::vector<Demand> demands_within(std::span<const Demand> demands, const music::NoteSet& notes);

music::NoteSet notes_of(std::span<const Demand> demands) noexcept;
std::int64_t weight_of(std::span<const Demand> demands) noexcept;

// The sum of weight x time at which a demand is met when the notes are learnt in this order, each in time 1. `order`
// holds MIDI numbers, each once, and must meet every demand.
std::int64_t cost_of(std::span<const Demand> demands, std::span<const int> order);

}  // namespace planner
