// What each piece of evidence is worth for each key: a log-linear model of the labels of published collections.
#pragma once

#include <algorithm>
#include <array>
#include <cstddef>

#include "analysis/key_evidence.h"
#include "music/key.h"

namespace analysis {

// By semitones above a tonic.
using ByDegree = std::array<double, 12>;

// The modes that labels are plenty of; the others borrow from them. In the order of KeyModel's tables.
constexpr std::array<music::Mode, 4> kFittedModes{music::Mode::major, music::Mode::mixolydian, music::Mode::dorian,
                                                  music::Mode::minor};

// The score of a key is the sum of its evidence, each piece times its weight; the probability of a key is exp(score)
// over the sum of those of all keys. Form: conditional logit, McFadden, in Frontiers in Econometrics, 1974, pages
// 105-142 (from memory).
struct KeyModel {
    std::array<double, kFittedModes.size()> mode{};
    std::array<ByDegree, kFittedModes.size()> time{};         // of log(share + least_share())
    std::array<ByDegree, kFittedModes.size()> strong_time{};  // of the share
    ByDegree openings{};                                      // of the square root of the share
    ByDegree part_ends{};
    ByDegree last{};
    ByDegree before_last{};
    ByDegree first_strong{};
    ByDegree last_strong{};
};

// Added to the share of each degree: one note's worth, so that a short tune says less than a long one. Source: house
// choice, measured beside fixed shares of 0.003, 0.01 and 0.03, which do about as well.
inline double least_share(const KeyEvidence& evidence) { return 1.0 / std::max(1, evidence.notes); }

// Fitted to published collections of folk and dance tunes by `scripts/bench --key --fit`, which prints this table:
// O'Neill's Music of Ireland (1903), Aird's Selection of Airs (volumes 1 and 2, from 1778) and two thirds of Ryan's
// Mammoth Collection (1883). Aird's volume 3 and the last third it never sees. A test fits them again and compares.
extern const KeyModel kKeyModel;

// For every mode of music::kModes and every tonic the logarithm of its probability given the evidence, but for one
// constant that all share. Phrygian, lydian and locrian score as the minor or major key they differ least from, with
// the degrees that differ exchanged, less kRareMode.
using KeyScores = std::array<std::array<double, 12>, music::kModes.size()>;
KeyScores score_keys(const KeyEvidence& evidence, const KeyModel& model = kKeyModel);

// Source: house choice; of the labels of both collections 6 in 2599 name one of the three, about exp(-6).
constexpr double kRareMode = 4.0;

}  // namespace analysis
