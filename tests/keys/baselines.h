// What key finding is measured beside: the last note, and correlation with published profiles.
#pragma once

#include <array>
#include <cstddef>
#include <string>

#include "analysis/key_evidence.h"

namespace keys {

struct Guess {
    int tonic = 0;  // pitch class
    bool has_major_third = true;
};

struct Profile {
    std::string name;
    std::array<double, 12> major, minor;  // tonic first, rising by semitones
};

// Source: C. Krumhansl and E. Kessler, Psychological Review 89, 1982, pages 334-368: probe-tone ratings.
extern const Profile kKrumhanslKessler;
// Source: J. Albrecht and D. Shanahan, Music Perception 31(1), 2013, pages 59-67.
extern const Profile kAlbrechtShanahan;

// The Krumhansl-Schmuckler method (C. Krumhansl, Cognitive Foundations of Musical Pitch, Oxford, 1990): the key whose
// profile correlates best with the sums of note lengths. `last_bonus` is added where the last note is the tonic.
Guess by_profile(const analysis::KeyEvidence& evidence, const Profile& profile, double last_bonus);

// The last note is the tonic; the third that sounds longer decides.
Guess by_last_note(const analysis::KeyEvidence& evidence);

double correlation(const std::array<double, 12>& a,
                   const std::array<double, 12>& b);  // Pearson's; 0 where one side does not vary

}  // namespace keys
