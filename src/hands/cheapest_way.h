// How a melody is best played on an instrument: for each note one of its ways, so that all the motions of the hand
// together cost least. Exact: a shortest path over the ways of each note.
#pragma once

#include <optional>
#include <vector>

#include "hands/line.h"
#include "hands/motions.h"
#include "instruments/instrument.h"

namespace hands {

// A motion after a note shorter than kLongNote is quick and costs twice; so does what a short note itself asks for.
// Source: house choice, after practice (a change of direction on quavers is hard, on a long note easy).
constexpr int kQuickFactor = 2;

// Settings of the levers that are kept apart while a tune is searched; beyond it the cheapest so far are kept, and the
// answer need not be the cheapest. Source: house choice, far above what tunes need.
constexpr std::size_t kMostLeverSettings = 4096;

struct Stroke {
    LineNote note;
    const instruments::Way* way = nullptr;  // of the instrument; null where it has not the note
    MotionCounts motions{};                 // to come to it, and in it
    bool is_quick = false;                  // there is no time to get ready for it
    int cost = 0;
};

struct CheapestWay {
    std::vector<Stroke> strokes;  // one a note of the top line, in order
    MotionCounts motions{};       // all together
    MotionCounts quick{};         // of these, quick
    std::int64_t cost = 0;
    int missing = 0;  // notes the instrument has not: the hand begins anew after each
};

// `costs` says what is judged; usually instrument.motion_costs. `instrument` must outlive the answer. Of ways that cost
// the same the one in which fewest fingers move, then the one that stands first in the instrument's table.
CheapestWay find_cheapest_way(const std::vector<LineNote>& top_line, const instruments::Instrument& instrument,
                              const instruments::MotionCosts& costs);

// How few of one motion the melody can be played with, whatever else that costs.
int fewest(instruments::Motion motion, const std::vector<LineNote>& top_line,
           const instruments::Instrument& instrument);

// The bar whose notes cost most, the first of equals; nothing where nothing costs anything.
struct HardestBar {
    int bar = 0;
    std::int64_t cost = 0;
    MotionCounts motions{};
};
std::optional<HardestBar> hardest_bar(const CheapestWay& way);

}  // namespace hands
