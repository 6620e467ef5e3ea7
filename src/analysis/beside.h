// Two settings of a tune bar beside bar.
#pragma once

#include <cstdint>
#include <vector>

#include "tune/outline.h"

namespace analysis {

// Bars as indexes into Outline::bars: one on each side, two beside one that is as long where a tune has bars of half
// the width, none where the other has a bar more.
struct BarBeside {
    std::vector<std::uint32_t> one, other;
    bool is_same = false;  // the same notes at the same times, octaves left out

    friend bool operator==(const BarBeside&, const BarBeside&) = default;
};

struct Beside {
    int semitones = 0;           // up, by which `other` comes to lie as `one` does: nearest to it in height too
    bool in_other_mode = false;  // it then still has other notes on the same steps of the scale
    std::vector<BarBeside> bars;
};

// The bars as play_bars_once plays them, aligned so that their likeness adds up to most (Needleman and Wunsch, Journal
// of Molecular Biology 48, 1970, pages 443-453), in the move that makes them most alike; bar with bar, or half bar with
// bar where that makes them more alike.
Beside lay_beside(const tune::Outline& one, const tune::Outline& other);

}  // namespace analysis
