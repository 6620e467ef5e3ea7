// What to learn next: the tune that takes least, and others beside it.
#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <set>
#include <span>
#include <vector>

#include "repertoire/learning_load.h"

namespace repertoire {

struct NextGoal {
    std::size_t picks = 3;
    bool is_short = false;  // fewest bars to learn first, whatever else
    LoadWeights weights;
};

struct Pick {
    std::size_t tune = 0;  // into the candidates
    Load load;
    bool is_wished = false;
    int asked = 0;   // as in TuneMatter
    int points = 0;  // tenths: its load, less what a wish and being asked for take away
};

// What the hand has to do for a note of a candidate, in tenths of a cost; nothing where that cannot be said. Called
// only for candidates that may be among the picks.
using HandOf = std::function<std::optional<int>(std::size_t tune)>;

// The tune that a candidate probably is under another id: one the player has, or one of the picks so far; nothing where
// there is none. Called only for candidates that are about to be picked.
using TwinOf = std::function<std::optional<tune::TuneId>(std::size_t tune, std::span<const Pick> so_far)>;

// A candidate that would have been picked.
struct HeldBack {
    std::size_t tune = 0;  // into the candidates
    tune::TuneId twin;
};

struct NextPicks {
    std::vector<Pick> picks;
    std::vector<HeldBack> held_back;  // in the order they were met
};

// The one that takes fewest points first; equals by title, then id. The others are chosen so that each pick before of
// the same rhythm counts like a tune taken up last: they are something else unless that takes much more. They stand in
// the order of their points, which do not tell that. Exact: no candidate left out would have come before one chosen,
// but for those held back because they are probably a tune the player has or is offered. A wish is never held back.
NextPicks pick_next(std::span<const TuneMatter> candidates, const Learner& learner,
                    const std::set<tune::TuneId>& wishes, const NextGoal& goal, const HandOf& hand_of,
                    const TwinOf& twin_of);

}  // namespace repertoire
