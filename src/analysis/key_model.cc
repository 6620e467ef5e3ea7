#include "analysis/key_model.h"

#include <cmath>
#include <utility>

namespace analysis {

namespace {

// A mode as a fitted one with degrees exchanged: {lower form, higher form} in semitones above the tonic.
struct Borrowed {
    music::Mode mode;
    std::size_t fitted;                                            // into kFittedModes
    std::array<std::pair<std::size_t, std::size_t>, 2> exchanged;  // {0, 0} exchanges nothing
    double less;
};

constexpr std::array<Borrowed, music::kModes.size()> kBorrowed{{
    {music::Mode::major, 0, {}, 0},
    {music::Mode::mixolydian, 1, {}, 0},
    {music::Mode::dorian, 2, {}, 0},
    {music::Mode::minor, 3, {}, 0},
    {music::Mode::lydian, 0, {{{5, 6}, {0, 0}}}, kRareMode},
    {music::Mode::phrygian, 3, {{{1, 2}, {0, 0}}}, kRareMode},
    {music::Mode::locrian, 3, {{{1, 2}, {6, 7}}}, kRareMode},
}};

double weigh(const ByDegree& weights, const ByPitchClass& evidence, std::size_t tonic) {
    double sum = 0;
    for (std::size_t degree = 0; degree < 12; ++degree) sum += weights[degree] * evidence[(tonic + degree) % 12];
    return sum;
}

}  // namespace

const KeyModel kKeyModel{
    .mode = {-0.03, 0.03, -0.01, 0.02},
    .time = {{{3.02, -0.86, -0.96, -1.49, 1.41, 0.62, -1.32, 0.67, 0.05, -0.08, -1.79, 0.90},
              {1.10, -0.40, -0.35, -1.71, 1.13, 0.45, -0.55, -0.26, -0.28, 0.79, 0.85, -1.37},
              {1.06, -0.74, 1.52, 0.61, -1.55, -0.18, -0.75, 0.85, -1.08, 0.45, 0.76, -0.58},
              {1.60, -1.10, 0.62, 0.71, -1.48, -0.09, -0.52, 1.35, 0.35, -1.69, 0.18, 0.10}}},
    .strong_time = {{{-0.23, -0.03, 0.08, -0.16, 0.69, -0.42, -0.01, 0.07, -0.12, 0.14, 0.29, -0.35},
                     {0.41, -0.02, -0.24, -0.07, -0.16, 0.64, 0.02, 0.26, -0.04, -0.24, -0.48, -0.05},
                     {-0.05, -0.01, -0.18, 0.27, -0.07, -0.30, -0.00, 0.60, -0.04, -0.39, 0.17, -0.01},
                     {0.05, -0.01, 0.17, -0.36, -0.03, -0.26, -0.01, 0.03, 0.05, 0.03, 0.31, 0.04}}},
    .openings = {1.71, -0.37, -0.14, -0.38, 1.08, -0.16, -0.43, 0.56, -0.25, -0.79, 0.15, -0.98},
    .part_ends = {2.17, 0.08, 0.24, -0.59, 0.19, -1.00, -0.21, 0.19, -0.17, -0.47, -0.24, -0.20},
    .last = {0.64, -0.35, 0.57, -0.45, -0.08, 0.19, -0.37, 0.07, -0.48, 0.04, 0.03, 0.19},
    .before_last = {-0.25, -0.08, 0.73, -0.15, 0.30, -0.47, 0.13, 0.04, -0.37, 0.40, -0.57, 0.28},
    .first_strong = {1.00, -0.01, -1.03, 0.27, 0.62, -0.59, 0.09, 1.01, 0.06, -0.25, -0.73, -0.44},
    .last_strong = {0.49, 0.12, -0.35, -0.10, -0.01, 0.26, -0.10, 0.09, -0.15, -0.73, 0.13, 0.34},
};

KeyScores score_keys(const KeyEvidence& evidence, const KeyModel& model) {
    ByPitchClass log_time;
    ByPitchClass root_openings;
    for (std::size_t name = 0; name < 12; ++name) {
        log_time[name] = std::log(evidence.time[name] + least_share(evidence));
        root_openings[name] = std::sqrt(evidence.openings[name]);
    }
    ByPitchClass of_any_mode{};
    for (std::size_t tonic = 0; tonic < 12; ++tonic)
        of_any_mode[tonic] =
            weigh(model.openings, root_openings, tonic) + weigh(model.part_ends, evidence.part_ends, tonic) +
            weigh(model.last, evidence.last, tonic) + weigh(model.before_last, evidence.before_last, tonic) +
            weigh(model.first_strong, evidence.first_strong, tonic) +
            weigh(model.last_strong, evidence.last_strong, tonic);
    KeyScores scores{};
    for (const Borrowed& borrowed : kBorrowed) {
        ByDegree time = model.time[borrowed.fitted];
        ByDegree strong = model.strong_time[borrowed.fitted];
        for (const auto& [low, high] : borrowed.exchanged) {
            std::swap(time[low], time[high]);
            std::swap(strong[low], strong[high]);
        }
        for (std::size_t tonic = 0; tonic < 12; ++tonic)
            scores[static_cast<std::size_t>(borrowed.mode)][tonic] = of_any_mode[tonic] + model.mode[borrowed.fitted] -
                                                                     borrowed.less + weigh(time, log_time, tonic) +
                                                                     weigh(strong, evidence.strong_time, tonic);
    }
    return scores;
}

}  // namespace analysis
