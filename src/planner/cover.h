// Which notes rather than which order: the so many notes that open most tunes, and the fewest notes that open so many.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/deadline.h"
#include "planner/goal.h"
#include "planner/note_problem.h"

namespace planner {

// Notes are leads here (see note_groups.h): one MIDI number stands for all that is learnt in one go, and counts as one
// whatever its time.
struct CoverQuestion {
    std::size_t notes = 0;    // how many there shall be
    music::NoteSet forced;    // among them; at most `notes`
    std::size_t answers = 1;  // how many different sets are wanted
};

struct Cover {
    music::NoteSet notes;
    std::int64_t met = 0;  // weight of the demands within it

    friend bool operator==(const Cover&, const Cover&) = default;
};

// Best first: most weight met, then fewest sharps and flats, then in the order of comes_before. The sets hold `notes`
// notes out of the demands and the forced ones, or all of these where they are fewer. Best sets need not nest: the best
// three may leave out both of the best two.
struct CoverAnswer {
    std::vector<Cover> covers;     // fewer than wanted only where there are no more sets, or where time ran out
    std::int64_t upper_bound = 0;  // no set of so many notes meets more
    std::size_t states = 0;        // pairs of notes taken and left out that were looked at
    bool is_finished = false;      // every set was ruled out or seen, so the covers after the first are proven too

    bool is_proven() const noexcept { return !covers.empty() && covers.front().met == upper_bound; }
};

// All weights together must not exceed kMaxTotalWeight. The same whatever the order of the demands, unless the deadline
// passes.
CoverAnswer best_cover(std::span<const Demand> demands, const CoverQuestion& question, const Limits& limits,
                       const Deadline& deadline);

struct SmallestCover {
    Cover cover;             // meets what was asked
    std::size_t fewest = 0;  // no smaller set does
    std::size_t states = 0;
    bool is_finished = false;  // of this size none is better, in the order above

    bool is_proven() const noexcept { return fewest == static_cast<std::size_t>(cover.notes.size()); }
};

// The smallest set that meets `weight` (0 to the weight of all demands), and of that size the best.
SmallestCover smallest_cover(std::span<const Demand> demands, std::int64_t weight, const Limits& limits,
                             const Deadline& deadline);

}  // namespace planner
