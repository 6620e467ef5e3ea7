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

// Fewest points first; equals by title, then id. Behind the first, each pick before of the same rhythm counts like a
// tune taken up last, so that the others are something else unless that takes much more; `points` does not tell that.
// Exact: no candidate left out has fewer.
std::vector<Pick> pick_next(std::span<const TuneMatter> candidates, const Learner& learner,
                            const std::set<tune::TuneId>& wishes, const NextGoal& goal, const HandOf& hand_of);

}  // namespace repertoire
