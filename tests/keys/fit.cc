// Conditional logit with latent modes, by L-BFGS (Liu and Nocedal, Mathematical Programming 45, 1989, pages 503-528;
// from memory).
#include "fit.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <deque>
#include <numeric>

namespace keys {

namespace {

using analysis::ByPitchClass;
using analysis::kFittedModes;
using Vector = std::vector<double>;

constexpr double kRidge = 2.0;          // house choice; 1 to 5 do about as well
constexpr double kSameSignature = 0.1;  // house choice; measured beside 0, 0.02 and 0.3
constexpr double kTrustedWeight = 2.0;  // a tune whose encoder writes modes counts as two; house choice
constexpr int kMostRounds = 200;
constexpr std::size_t kModes = kFittedModes.size();
constexpr std::size_t kKeys = 12 * kModes;
constexpr std::size_t kShared = 6;
constexpr std::size_t kWeights = kModes + 2 * 12 * kModes + 12 * kShared;

using Twice = std::array<double, 24>;  // by pitch class, two octaves: turning it needs no remainder

Twice twice(const ByPitchClass& once) {
    Twice both;
    std::copy(once.begin(), once.end(), both.begin());
    std::copy(once.begin(), once.end(), both.begin() + 12);
    return both;
}

struct Example {
    Twice time;  // logarithms
    Twice strong;
    std::array<Twice, kShared> shared;
    std::array<double, kKeys> allowed{};  // by tonic, then mode
    double weight = 1;
};

Example example_of(const LabelledTune& tune) {
    Example example;
    const analysis::KeyEvidence& evidence = tune.evidence;
    ByPitchClass time, openings;
    for (std::size_t name = 0; name < 12; ++name) {
        time[name] = std::log(evidence.time[name] + analysis::least_share(evidence));
        openings[name] = std::sqrt(evidence.openings[name]);
    }
    example.time = twice(time);
    example.strong = twice(evidence.strong_time);
    example.shared = {twice(openings),
                      twice(evidence.part_ends),
                      twice(evidence.last),
                      twice(evidence.before_last),
                      twice(evidence.first_strong),
                      twice(evidence.last_strong)};
    example.weight = tune.is_mode_trusted ? kTrustedWeight : 1;
    const auto tonic = static_cast<std::size_t>(tune.label.tonic.pitch_class());
    const auto at = std::find(kFittedModes.begin(), kFittedModes.end(), tune.label.mode);
    const bool names_major_or_minor = tune.label.mode == music::Mode::major || tune.label.mode == music::Mode::minor;
    if (at != kFittedModes.end() && (tune.is_mode_trusted || !names_major_or_minor)) {
        example.allowed[tonic * kModes + static_cast<std::size_t>(at - kFittedModes.begin())] = 1;
        return example;
    }
    const int signature = tune.label.signature_fifths();
    for (std::size_t mode = 0; mode < kModes; ++mode) {
        if (has_major_third(kFittedModes[mode]) == has_major_third(tune.label.mode))
            example.allowed[tonic * kModes + mode] = 1;
        if (!names_major_or_minor) continue;
        for (std::size_t other = 0; other < 12; ++other) {
            const music::Key key{music::spell(static_cast<int>(other), signature), kFittedModes[mode]};
            double& allowed = example.allowed[other * kModes + mode];
            if ((key.signature_fifths() - signature) % 12 == 0 && allowed == 0) allowed = kSameSignature;
        }
    }
    return example;
}

constexpr std::size_t time_at(std::size_t mode) { return kModes + 12 * mode; }
constexpr std::size_t strong_at(std::size_t mode) { return kModes + 12 * kModes + 12 * mode; }
constexpr std::size_t shared_at(std::size_t kind) { return kModes + 24 * kModes + 12 * kind; }

double weigh(const double* weights, const Twice& evidence, std::size_t tonic) {
    double sum = 0;
    for (std::size_t degree = 0; degree < 12; ++degree) sum += weights[degree] * evidence[tonic + degree];
    return sum;
}

void add(double* gradient, const Twice& evidence, std::size_t tonic, double by) {
    for (std::size_t degree = 0; degree < 12; ++degree) gradient[degree] += by * evidence[tonic + degree];
}

// Minus the logarithm of the labels' likelihood, and its gradient.
double loss(const std::vector<Example>& examples, const Vector& weights, Vector& gradient) {
    double sum = 0;
    for (std::size_t at = 0; at < kWeights; ++at) {
        sum += kRidge * weights[at] * weights[at] / 2;
        gradient[at] = kRidge * weights[at];
    }
    std::array<double, kKeys> score;
    for (const Example& example : examples) {
        for (std::size_t tonic = 0; tonic < 12; ++tonic) {
            double of_any = 0;
            for (std::size_t kind = 0; kind < kShared; ++kind)
                of_any += weigh(&weights[shared_at(kind)], example.shared[kind], tonic);
            for (std::size_t mode = 0; mode < kModes; ++mode)
                score[tonic * kModes + mode] = of_any + weights[mode] +
                                               weigh(&weights[time_at(mode)], example.time, tonic) +
                                               weigh(&weights[strong_at(mode)], example.strong, tonic);
        }
        const double best = *std::max_element(score.begin(), score.end());
        double whole = 0;
        double allowed = 0;
        for (std::size_t key = 0; key < kKeys; ++key) {
            score[key] = std::exp(score[key] - best);
            whole += score[key];
            allowed += score[key] * example.allowed[key];
        }
        sum -= example.weight * std::log(allowed / whole + 1e-12);
        for (std::size_t tonic = 0; tonic < 12; ++tonic) {
            double of_any = 0;
            for (std::size_t mode = 0; mode < kModes; ++mode) {
                const std::size_t key = tonic * kModes + mode;
                const double by =
                    example.weight * (score[key] / whole - score[key] * example.allowed[key] / (allowed + 1e-300));
                of_any += by;
                gradient[mode] += by;
                add(&gradient[time_at(mode)], example.time, tonic, by);
                add(&gradient[strong_at(mode)], example.strong, tonic, by);
            }
            for (std::size_t kind = 0; kind < kShared; ++kind)
                add(&gradient[shared_at(kind)], example.shared[kind], tonic, of_any);
        }
    }
    return sum;
}

double product(const Vector& a, const Vector& b) { return std::inner_product(a.begin(), a.end(), b.begin(), 0.0); }

Vector minimise(const std::vector<Example>& examples) {
    constexpr std::size_t kKept = 12;
    struct Move {
        Vector step, turn;
        double scale;
    };
    std::deque<Move> moves;
    Vector at(kWeights, 0.0), slope(kWeights), next(kWeights), next_slope(kWeights);
    double value = loss(examples, at, slope);
    for (int round = 0; round < kMostRounds; ++round) {
        Vector direction = slope;
        Vector shares(moves.size());
        for (std::size_t i = moves.size(); i-- > 0;) {
            shares[i] = moves[i].scale * product(moves[i].step, direction);
            for (std::size_t k = 0; k < kWeights; ++k) direction[k] -= shares[i] * moves[i].turn[k];
        }
        const double first = moves.empty() ? 1 / std::sqrt(product(slope, slope))
                                           : 1 / (moves.back().scale * product(moves.back().turn, moves.back().turn));
        for (double& part : direction) part *= first;
        for (std::size_t i = 0; i < moves.size(); ++i) {
            const double back = shares[i] - moves[i].scale * product(moves[i].turn, direction);
            for (std::size_t k = 0; k < kWeights; ++k) direction[k] += back * moves[i].step[k];
        }
        const double fall = product(direction, slope);
        double length = 1;
        double next_value = value;
        for (; length > 1e-10; length /= 2) {
            for (std::size_t k = 0; k < kWeights; ++k) next[k] = at[k] - length * direction[k];
            next_value = loss(examples, next, next_slope);
            if (next_value <= value - 1e-4 * length * fall) break;
        }
        if (length <= 1e-10 || value - next_value < 1e-7 * value) break;
        Move move{Vector(kWeights), Vector(kWeights), 0};
        for (std::size_t k = 0; k < kWeights; ++k)
            move.step[k] = next[k] - at[k], move.turn[k] = next_slope[k] - slope[k];
        const double bend = product(move.step, move.turn);
        if (bend > 1e-12) {
            move.scale = 1 / bend;
            moves.push_back(std::move(move));
            if (moves.size() > kKept) moves.pop_front();
        }
        at = next, slope = next_slope, value = next_value;
    }
    return at;
}

}  // namespace

analysis::KeyModel fit(const std::vector<const LabelledTune*>& tunes) {
    std::vector<Example> examples;
    for (const LabelledTune* tune : tunes) examples.push_back(example_of(*tune));
    const Vector weights = minimise(examples);
    analysis::KeyModel model;
    const auto take = [&](std::size_t at) {
        analysis::ByDegree by_degree;
        std::copy_n(weights.begin() + static_cast<std::ptrdiff_t>(at), 12, by_degree.begin());
        return by_degree;
    };
    for (std::size_t mode = 0; mode < kModes; ++mode) {
        model.mode[mode] = weights[mode];
        model.time[mode] = take(time_at(mode));
        model.strong_time[mode] = take(strong_at(mode));
    }
    model.openings = take(shared_at(0));
    model.part_ends = take(shared_at(1));
    model.last = take(shared_at(2));
    model.before_last = take(shared_at(3));
    model.first_strong = take(shared_at(4));
    model.last_strong = take(shared_at(5));
    return model;
}

std::string table_of(const analysis::KeyModel& model) {
    std::string text = "const KeyModel kKeyModel{\n";
    char number[32];
    const auto row = [&](const char* indent, const auto& values, const char* end) {
        text += std::string(indent) + "{";
        for (std::size_t at = 0; at < values.size(); ++at) {
            std::snprintf(number, sizeof number, "%s%.2f", at > 0 ? ", " : "", values[at] + 0.0);
            text += number;
        }
        text += std::string("}") + end;
    };
    row("    .mode = ", model.mode, ",\n");
    const auto table = [&](const char* name, const auto& rows) {
        text += std::string("    .") + name + " = {{";
        for (std::size_t mode = 0; mode < rows.size(); ++mode)
            row(mode > 0 ? "              " : "", rows[mode], mode + 1 < rows.size() ? ",\n" : "}},\n");
    };
    table("time", model.time);
    table("strong_time", model.strong_time);
    row("    .openings = ", model.openings, ",\n");
    row("    .part_ends = ", model.part_ends, ",\n");
    row("    .last = ", model.last, ",\n");
    row("    .before_last = ", model.before_last, ",\n");
    row("    .first_strong = ", model.first_strong, ",\n");
    row("    .last_strong = ", model.last_strong, ",\n");
    return text + "};\n";
}

}  // namespace keys
