// The bars a player has in the fingers already: a tune made of them is quickly learnt.
#pragma once

#include <cstdint>
#include <span>
#include <unordered_set>
#include <vector>

#include "tune/outline.h"

namespace repertoire {

// A bar by when its notes are struck and by how far each lies from the first: the same in any key and octave. How long
// the last note is held does not count, so that a bar cut short for a pick-up is the bar it stands for. A hash: that
// two different bars of a library share one is not to be expected.
using Figure = std::uint64_t;

// One for each different bar of a tune, ascending. Within a tune bars are told apart as they stand, by notes, time and
// length, since a bar at another pitch is another one to the fingers: so a figure may come several times. Pick-ups and
// bars without a note are left out.
std::vector<Figure> figures_of(const tune::Outline& outline);

class BarStock {
public:
    BarStock() = default;
    // All that `below`, which must outlive this, has, and more.
    explicit BarStock(const BarStock* below) : below_(below) {}

    void add(std::span<const Figure> figures) { known_.insert(figures.begin(), figures.end()); }
    bool has(Figure figure) const { return known_.contains(figure) || (below_ != nullptr && below_->has(figure)); }
    // How many of these bars are there already, in any key.
    int count_known(std::span<const Figure> figures) const;

private:
    std::unordered_set<Figure> known_;
    const BarStock* below_ = nullptr;
};

}  // namespace repertoire
