// The cheapest way through a line where the usual way of some of its notes is settled: a shortest path over the ways of
// each note.
#pragma once

#include <array>
#include <map>
#include <string>
#include <unordered_map>
#include <vector>

#include "hands/cheapest_way.h"

namespace hands {

// By MIDI number; null where nothing is settled, and no way of that note is a second one.
using UsualWays = std::array<const instruments::Way*, music::kMidiNotes>;

// Which strings of a lever harp the line wants in two states, and by what sign a state is known.
class Levers {
public:
    Levers(const std::vector<LineNote>& line, const instruments::Instrument& instrument, bool are_judged);

    std::string unset() const;

    // Sets the string of `way` as it is wanted; 1 where it had been set otherwise.
    int set_for(const instruments::Way& way, std::string& levers) const;

private:
    std::map<std::string, std::pair<std::size_t, std::map<std::string, char>>> strings_;
};

// Made once for a line and asked as often as one likes. What it was made from must outlive it.
class WaySearch {
public:
    WaySearch(const std::vector<LineNote>& line, const instruments::Instrument& instrument,
              const instruments::MotionCosts& costs);

    CheapestWay run(const UsualWays& usual) const;

private:
    // How the hand may have come to a note: by which way, with the levers how, and from which place of the note before.
    struct Place {
        const instruments::Way* way = nullptr;
        std::string levers;  // a sign for each string that is wanted in two states
        std::int64_t cost = 0;
        std::int64_t moved = 0;  // fingers, between places that cost the same
        std::size_t from = 0;
        MotionCounts motions{};
        int own_cost = 0;
    };
    using Stage = std::vector<Place>;

    // What lies between two ways, worked out once.
    struct Motions {
        MotionCounts counts{};
        int cost = 0;
        int fingers = 0;
    };

    static bool is_better(const Place& a, const Place& b);
    static void offer(Place place, Stage& stage, std::map<std::string, std::size_t>& by_levers);

    int cost_of(const MotionCounts& motions) const;
    bool comes_quickly(std::size_t at) const;
    const Motions& between(const instruments::Way& from, const instruments::Way& to) const;
    Stage stage_of(std::size_t at, const Stage* before, const UsualWays& usual) const;
    Place arrive(std::size_t at, const instruments::Way& way, const Place* before, const UsualWays& usual) const;
    void write_down(const std::vector<Stage>& stages, std::size_t first, std::size_t end, CheapestWay& answer) const;

    const std::vector<LineNote>& line_;
    const instruments::Instrument& instrument_;
    const instruments::MotionCosts& costs_;
    Levers levers_;
    std::vector<bool> is_first_;  // of its pitch
    std::unordered_map<const instruments::Way*, Motions> in_;
    std::map<std::pair<const instruments::Way*, const instruments::Way*>, Motions> between_;
};

}  // namespace hands
