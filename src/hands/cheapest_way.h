// How a melody is best played on an instrument: for each note one of its ways, so that all the motions of the hand
// together cost least.
#pragma once

#include <optional>
#include <vector>

#include "hands/line.h"
#include "hands/motions.h"
#include "instruments/instrument.h"

namespace hands {

// Settings of the levers that are kept apart while a tune is searched; beyond it the cheapest so far are kept, and the
// answer need not be the cheapest. Source: house choice, far above what tunes need.
constexpr std::size_t kMostLeverSettings = 4096;

// Shortest paths that are looked for while usual ways are chosen. Source: house choice; of the tunes it was measured on
// (tests/outside/usual_ways.cc) none needed as many.
constexpr int kMostSearches = 4000;

// Costs are in parts of one cost of the instrument's file, of which time_before.h says how many make one.
struct Stroke {
    LineNote note;
    const instruments::Way* way = nullptr;  // of the instrument; null where it has not the note
    MotionCounts motions{};                 // to come to it, and in it
    bool is_quick = false;                  // there is less than a crotchet to get ready for it
    int cost = 0;
};

struct CheapestWay {
    std::vector<Stroke> strokes;  // one a note of the top line, in order
    MotionCounts motions{};       // all together
    MotionCounts quick{};         // of these, quick
    std::int64_t cost = 0;
    std::int64_t lower_bound = 0;    // no way costs less; `cost`, but where kMostSearches were not enough
    std::int64_t fingers_moved = 0;  // between ways that cost the same
    int missing = 0;                 // notes the instrument has not: the hand begins anew after each
};

// `costs` says what is judged; usually instrument.motion_costs. `instrument` must outlive the answer. Where a second
// way costs something, each note gets a usual way for the whole line, and is made otherwise only where that pays; usual
// ways are chosen so that all together costs least, by branch and bound over shortest paths. Of ways that cost the same
// the one in which fewest fingers move, then the one that stands first in the instrument's table.
CheapestWay find_cheapest_way(const std::vector<LineNote>& top_line, const instruments::Instrument& instrument,
                              const instruments::MotionCosts& costs);

// How few of one motion the melody can be played with, whatever else that costs.
int fewest(instruments::Motion motion, const std::vector<LineNote>& top_line,
           const instruments::Instrument& instrument);

// The bar whose notes cost most for a beat, the first of equals; nothing where nothing costs anything.
struct HardestBar {
    int bar = 0;
    std::int64_t cost = 0;  // of the whole bar
    music::Duration beats;  // at least one
    MotionCounts motions{};
};
std::optional<HardestBar> hardest_bar(const CheapestWay& way);

}  // namespace hands
