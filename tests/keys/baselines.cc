#include "baselines.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace keys {

const Profile kKrumhanslKessler{"Krumhansl-Kessler",
                                {6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88},
                                {6.33, 2.68, 3.52, 5.38, 2.60, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17}};
const Profile kAlbrechtShanahan{"Albrecht-Shanahan",
                                {.238, .006, .111, .006, .137, .094, .016, .214, .009, .080, .008, .081},
                                {.220, .006, .104, .123, .019, .103, .012, .214, .062, .022, .061, .052}};

double correlation(const std::array<double, 12>& a, const std::array<double, 12>& b) {
    const double mean_a = std::accumulate(a.begin(), a.end(), 0.0) / 12;
    const double mean_b = std::accumulate(b.begin(), b.end(), 0.0) / 12;
    double product = 0, square_a = 0, square_b = 0;
    for (std::size_t i = 0; i < 12; ++i) {
        product += (a[i] - mean_a) * (b[i] - mean_b);
        square_a += (a[i] - mean_a) * (a[i] - mean_a);
        square_b += (b[i] - mean_b) * (b[i] - mean_b);
    }
    return square_a > 0 && square_b > 0 ? product / std::sqrt(square_a * square_b) : 0;
}

Guess by_profile(const analysis::KeyEvidence& evidence, const Profile& profile, double last_bonus) {
    Guess best;
    double best_score = -2;
    for (int tonic = 0; tonic < 12; ++tonic) {
        std::array<double, 12> turned{};
        for (int degree = 0; degree < 12; ++degree)
            turned[static_cast<std::size_t>(degree)] = evidence.time[static_cast<std::size_t>((tonic + degree) % 12)];
        const double bonus = last_bonus * evidence.last[static_cast<std::size_t>(tonic)];
        for (const bool major : {true, false}) {
            const double score = correlation(turned, major ? profile.major : profile.minor) + bonus;
            if (score > best_score) best_score = score, best = {tonic, major};
        }
    }
    return best;
}

Guess by_last_note(const analysis::KeyEvidence& evidence) {
    const int tonic = evidence.last_note % 12;
    return {tonic, evidence.time[static_cast<std::size_t>((tonic + 4) % 12)] >=
                       evidence.time[static_cast<std::size_t>((tonic + 3) % 12)]};
}

}  // namespace keys
