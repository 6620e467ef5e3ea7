// A tune that nearly fits: which notes it lacks, and what a player could do about each.
#pragma once

#include <optional>
#include <vector>

#include "hands/line.h"
#include "music/note_set.h"

namespace hands {

// Whether another note of the tune could stand in for one that is missing.
enum class StandIn : std::uint8_t {
    yes,      // it comes once, weak and short: a neighbour does
    perhaps,  // it is never strong nor held, but comes again
    no,       // it is on a strong beat, or held
};

// Source of the rule: common practice, no source.
struct Lack {
    int midi = 60;
    int count = 0;            // of the tune's notes
    int strong = 0;           // of these, on a strong beat
    int held = 0;             // of these, a crotchet or longer
    std::vector<int> bars;    // ascending, without repeats
    bool is_beneath = false;  // always beneath another note of a chord: it may be left out
    StandIn stand_in = StandIn::no;
    std::optional<int> neighbour;  // MIDI; the note beside it, where it comes last, that would be played instead

    friend bool operator==(const Lack&, const Lack&) = default;
};

// Every missing note played an octave higher or lower, where it is at hand.
struct Fold {
    int notes = 0;         // that are folded
    bool up = false;       // some of them an octave up
    bool down = false;     // some of them an octave down
    int largest_leap = 0;  // semitones, into or out of a folded note
    int leap_before = 0;   // what that leap is as written
    int leap_bar = 0;      // where

    friend bool operator==(const Fold&, const Fold&) = default;
};

struct NearMiss {
    std::vector<Lack> lacks;   // ascending; empty where the tune fits
    int notes = 0;             // of the whole tune
    int missing = 0;           // of these, notes it lacks
    std::optional<Fold> fold;  // nothing where a missing note has no octave at hand, or nothing is missing

    friend bool operator==(const NearMiss&, const NearMiss&) = default;
};

NearMiss find_near_miss(const std::vector<LineNote>& line, const music::NoteSet& have);

// The same question of note sets alone: whether all is at hand once missing notes go up or down an octave.
bool fits_folded(const music::NoteSet& needed, const music::NoteSet& have);

}  // namespace hands
