// A short ladder to a tune that is too much at once: stepping stones, each bringing some of its notes and bars.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "repertoire/learning_load.h"

namespace repertoire {

constexpr std::size_t kMostStones = 3;  // Source: house choice; a ladder should be short

// Stones that are tried in every order before all are: the work goes with the third power. Source: house choice, a
// tenth of a second at most.
constexpr std::size_t kTriedFirst = 48;

// Looks at a tune on a rung, after which the search ends with the best ladder found. Source: house choice, well under a
// second; counted, so that the answer is the same everywhere.
constexpr std::int64_t kMostEvaluations = 200'000'000;

struct Rung {
    std::size_t tune = 0;   // into the candidates; the tune itself on the last rung
    Load load;              // once the rungs before it are known
    int points = 0;         // tenths; notes, strikes and bars alone
    music::NoteSet brings;  // notes of the tune that are new with this rung
    int shared_bars = 0;    // different bars of the tune that are new with this rung
};

struct Ladder {
    std::vector<Rung> rungs;          // the tune itself last
    int points_at_once = 0;           // tenths: of the tune without stones
    std::size_t stones_possible = 0;  // candidates that have something of the tune, and no note beyond it
    bool is_best = false;             // all that are possible were tried; else kTriedFirst were, and some others
};

// Of all ladders of at most kMostStones stones the one in which the squares of the points of its rungs make the least
// sum: a rung twice as high counts as four. A stone needs no note that neither the learner has nor the tune needs, and
// brings something of the tune that the stones before it have not brought.
// `target` is an index into the candidates. Equals: fewer stones, then as candidates are listed by title and id.
Ladder find_ladder(std::span<const TuneMatter> candidates, std::size_t target, const Learner& learner,
                   const LoadWeights& weights, std::int64_t most_evaluations = kMostEvaluations);

}  // namespace repertoire
