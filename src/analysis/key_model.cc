#include "analysis/key_model.h"

#include <cmath>
#include <utility>

namespace analysis {

namespace {

// A mode as a fitted one with degrees exchanged: {lower form, higher form} in semitones above the tonic.
struct Borrowed {
    music::Mode mode;
    std::size_t fitted;  // into kFittedModes
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
    .mode = {-0.10, -0.07, 0.08, 0.09},
    .time = {{{3.05, -0.93, -0.94, -1.55, 1.40, 0.62, -1.32, 0.70, 0.13, -0.03, -1.75, 0.91},
              {1.19, -0.42, -0.33, -1.74, 1.03, 0.49, -0.55, -0.24, -0.26, 0.78, 0.77, -1.28},
              {1.05, -0.66, 1.43, 0.56, -1.53, -0.20, -0.68, 0.75, -0.99, 0.43, 0.70, -0.59},
              {1.55, -1.07, 0.56, 0.66, -1.44, -0.11, -0.43, 1.31, 0.33, -1.68, 0.21, 0.10}}},
    .strong_time = {{{-0.22, -0.02, 0.04, -0.14, 0.65, -0.39, 0.00, 0.04, -0.12, 0.11, 0.29, -0.35},
              {0.36, -0.02, -0.23, -0.06, -0.14, 0.56, 0.02, 0.23, -0.04, -0.18, -0.52, -0.04},
              {-0.05, -0.01, -0.18, 0.25, -0.06, -0.27, -0.00, 0.62, -0.04, -0.38, 0.22, -0.01},
              {0.11, -0.02, 0.19, -0.33, -0.03, -0.26, -0.01, 0.03, 0.04, 0.04, 0.28, 0.05}}},
    .openings = {1.69, -0.41, -0.13, -0.33, 1.07, -0.19, -0.39, 0.59, -0.27, -0.77, 0.19, -1.06},
    .part_ends = {2.16, 0.07, 0.24, -0.58, 0.16, -0.97, -0.20, 0.19, -0.20, -0.47, -0.22, -0.17},
    .last = {0.68, -0.34, 0.54, -0.45, -0.11, 0.18, -0.36, 0.10, -0.49, 0.07, -0.02, 0.20},
    .before_last = {-0.28, -0.00, 0.74, -0.20, 0.34, -0.48, 0.09, 0.07, -0.43, 0.41, -0.56, 0.31},
    .first_strong = {1.01, -0.01, -1.05, 0.27, 0.63, -0.59, 0.11, 1.00, 0.06, -0.24, -0.75, -0.45},
    .last_strong = {0.47, 0.14, -0.29, -0.12, 0.01, 0.23, -0.10, 0.09, -0.15, -0.76, 0.17, 0.31},
};

KeyScores score_keys(const KeyEvidence& evidence, const KeyModel& model) {
    ByPitchClass log_time;
    ByPitchClass root_openings;
    for (std::size_t name = 0; name < 12; ++name) {
        log_time[name] = std::log(evidence.time[name] + kLeastShare);
        root_openings[name] = std::sqrt(evidence.openings[name]);
    }
    ByPitchClass of_any_mode{};
    for (std::size_t tonic = 0; tonic < 12; ++tonic)
        of_any_mode[tonic] = weigh(model.openings, root_openings, tonic) + weigh(model.part_ends, evidence.part_ends, tonic) +
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
            scores[static_cast<std::size_t>(borrowed.mode)][tonic] = of_any_mode[tonic] + model.mode[borrowed.fitted] - borrowed.less +
                                                                     weigh(time, log_time, tonic) +
                                                                     weigh(strong, evidence.strong_time, tonic);
    }
    return scores;
}

}  // namespace analysis
