// The room's door: a melody and an instrument in, all that can be said of the two out. A pure function; never fails.
#pragma once

#include <optional>
#include <vector>

#include "hands/cheapest_way.h"
#include "hands/move.h"
#include "hands/near_miss.h"
#include "hands/stretch.h"
#include "tune/facts.h"

namespace hands {

// One kind of motion that costs something on the instrument.
struct MotionSum {
    instruments::Motion motion = instruments::Motion::direction;
    int count = 0;   // by the cheapest way
    int quick = 0;   // of these, with less than a crotchet to get ready
    int fewest = 0;  // how few there can be, whatever else that costs

    friend bool operator==(const MotionSum&, const MotionSum&) = default;
};

struct Handling {
    NearMiss near_miss;
    std::vector<Move> moves;  // the best first, the tune as it is among them
    CheapestWay way;
    std::vector<MotionSum> motions;  // in the order of instruments::Motion
    std::optional<HardestBar> hardest;
    std::vector<Stretch> stretches;  // in order
};

// `facts` are those of `melody`. `instrument` must outlive the answer.
Handling handle(const music::Melody& melody, const tune::TuneFacts& facts, const instruments::Instrument& instrument);

}  // namespace hands
