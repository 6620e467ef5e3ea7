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
    .mode = {-0.09, 0.04, -0.09, 0.15},
    .time = {{{2.74, -0.66, -0.83, -1.00, 1.24, 0.35, -1.23, 0.73, -0.10, -0.31, -1.93, 0.85},
              {1.28, -0.43, -0.35, -1.71, 1.02, 0.16, -0.66, -0.08, -0.12, 0.67, 0.67, -1.02},
              {1.25, -0.71, 1.21, 0.68, -1.22, -0.19, -0.87, 0.84, -1.15, 0.57, 0.78, -0.69},
              {1.95, -0.95, 0.45, 0.57, -1.47, -0.05, -0.26, 1.29, 0.18, -1.63, 0.14, 0.02}}},
    .strong_time = {{{0.22, -0.00, 0.26, -0.04, 0.65, -0.54, 0.13, -0.40, -0.07, 0.02, 0.27, -0.59},
                     {0.57, -0.02, -0.12, -0.07, -0.05, 0.42, -0.00, -0.14, -0.05, -0.08, -0.36, -0.09},
                     {0.07, -0.02, -0.24, 0.15, -0.04, -0.13, -0.00, 0.68, -0.05, -0.39, -0.08, -0.05},
                     {0.00, -0.01, 0.34, -0.18, -0.04, -0.38, -0.01, 0.09, -0.07, -0.05, 0.46, -0.01}}},
    .openings = {1.35, -0.30, -0.44, 0.05, 1.04, 0.22, -0.34, 0.64, -0.27, -0.74, -0.16, -1.04},
    .part_ends = {2.16, 0.05, 0.22, -0.70, 0.40, -0.89, -0.29, 0.05, -0.16, -0.55, 0.03, -0.33},
    .last = {0.30, -0.36, 0.18, -0.12, -0.34, 0.41, -0.03, -0.04, -0.28, 0.01, 0.09, 0.17},
    .before_last = {-0.32, -0.24, 0.80, 0.18, 0.22, -0.16, -0.02, 0.09, -0.58, 0.37, -0.46, 0.12},
    .first_strong = {1.13, -0.02, -0.84, 0.28, 0.65, -0.71, -0.00, 1.21, -0.07, -0.19, -0.66, -0.77},
    .last_strong = {0.63, 0.07, -0.06, 0.13, -0.16, 0.34, -0.03, -0.09, -0.26, -0.56, -0.11, 0.10},
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
