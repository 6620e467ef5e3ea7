// Stretches of a tune in which the hand can stay as it is.
#pragma once

#include <string>
#include <vector>

#include "hands/cheapest_way.h"

namespace hands {

// Notes in a row in one direction (where the air decides), on one string, or in one register.
struct Stretch {
    std::string where;  // `press`, `draw`, `A` (the row or string), `register 2`
    int notes = 0;
    int first_bar = 0;
    int last_bar = 0;

    friend bool operator==(const Stretch&, const Stretch&) = default;
};

// Shorter ones are no pattern. Source: house choice; a bar of a jig.
constexpr int kShortestStretch = 6;

// In order; empty where the instrument knows neither direction nor strings nor registers. `motion` says what they are
// told by: direction, string or register_.
std::vector<Stretch> stretches_of(const CheapestWay& way, instruments::Motion motion);

// By what stretches are told on the instrument: the first of direction, string and register_ that costs anything there.
std::optional<instruments::Motion> stretches_by(const instruments::Instrument& instrument);

}  // namespace hands
