// How the beats of a melody are filled and how its parts end: what the pattern of a rhythm is told by.
#pragma once

#include "music/melody.h"

namespace analysis {

// Beats that begin with a sound, of one length throughout; those of a pick-up left out. A beat is divided when sounds
// that do not outlast it fill it, two or more.
struct Beats {
    int all = 0;
    int divided = 0;
    // Of divided beats.
    int long_short = 0;        // two notes, 3:1, and 2:1 as a triplet writes it
    int short_long = 0;        // two notes: a snap
    int even = 0;              // two or four equal notes
    int threes = 0;            // three notes and more, the first no two thirds of the beat
    int two_thirds_first = 0;  // crotchet and quaver of a dotted crotchet
    int dotted_threes = 0;     // three notes, the first of a half: 3:1:2
    int runs = 0;              // four notes and more

    int uneven() const { return long_short + short_long; }
    int pairs() const { return uneven() + even; }
};

Beats count_beats(const music::Melody& melody, const music::Duration& beat);

// How many parts end on three notes of a beat each, the second of which may be divided and the last may be longer.
struct PartEnds {
    int all = 0;
    int on_three_beats = 0;
};

PartEnds count_part_ends(const music::Melody& melody, const music::Duration& beat);

// In how many bars of three beats the first beat is divided and a note of a beat or longer follows it.
struct BarsOfThree {
    int all = 0;
    int weight_on_second = 0;
};

BarsOfThree count_bars_of_three(const music::Melody& melody, const music::Duration& beat);

}  // namespace analysis
