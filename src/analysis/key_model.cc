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
    .mode = {-0.05, 0.03, -0.09, 0.12},
    .time = {{{2.77, -0.66, -0.83, -0.99, 1.22, 0.34, -1.25, 0.75, -0.10, -0.31, -1.94, 0.87},
              {1.26, -0.43, -0.38, -1.74, 1.00, 0.16, -0.64, -0.11, -0.10, 0.68, 0.67, -1.00},
              {1.31, -0.75, 1.23, 0.70, -1.25, -0.19, -0.87, 0.86, -1.15, 0.58, 0.75, -0.67},
              {1.99, -1.00, 0.42, 0.58, -1.49, -0.09, -0.22, 1.30, 0.19, -1.61, 0.12, 0.03}}},
    .strong_time = {{{0.29, -0.01, 0.21, -0.04, 0.65, -0.48, 0.10, -0.37, -0.06, -0.06, 0.22, -0.52},
              {0.52, -0.02, -0.11, -0.07, -0.05, 0.38, -0.00, -0.11, -0.04, -0.06, -0.33, -0.08},
              {0.09, -0.02, -0.25, 0.13, -0.04, -0.12, -0.01, 0.65, -0.05, -0.36, -0.08, -0.05},
              {0.05, -0.02, 0.29, -0.19, -0.04, -0.35, -0.01, 0.10, -0.06, -0.06, 0.41, -0.01}}},
    .openings = {1.32, -0.31, -0.42, 0.03, 1.10, 0.25, -0.34, 0.63, -0.27, -0.70, -0.19, -1.11},
    .part_ends = {2.26, 0.03, 0.27, -0.72, 0.20, -0.92, -0.27, 0.06, -0.17, -0.56, 0.10, -0.29},
    .last = {0.25, -0.34, 0.16, -0.14, -0.08, 0.45, -0.06, -0.03, -0.27, -0.02, 0.10, -0.02},
    .before_last = {-0.29, -0.24, 0.76, 0.19, 0.16, -0.22, -0.08, 0.18, -0.53, 0.37, -0.36, 0.07},
    .first_strong = {1.14, -0.04, -0.82, 0.26, 0.63, -0.72, 0.01, 1.24, -0.08, -0.21, -0.65, -0.77},
    .last_strong = {0.62, 0.05, -0.02, 0.23, -0.16, 0.32, -0.04, -0.13, -0.27, -0.54, -0.18, 0.12},
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
