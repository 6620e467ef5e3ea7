// Which of the twelve transpositions fits is first guessed from the shares of the pitch classes; the likeliest few are
// aligned. Tested by kinship_test.cc.
#include "analysis/kinship.h"

#include <algorithm>
#include <array>

namespace analysis {

namespace {

// The constants below: house choice, measured on three published books without what tests/support/books.h holds out: by
// how many of 361 pairs of one title or number that are not exact stand before the twelfth pair of other names, of one
// in sixteen of these, without those that a reader took for one tune. All found 199. Each was varied alone.

// For a bar of one tune left out between two aligned ones, in bars. 0.2 found 198, 0.05 190.
constexpr float kLeftOut = 0.15F;

// For going on elsewhere in the other tune, in bars. 0.7 found 196, 1.5 the same.
constexpr float kElsewhere = 1.0F;

// Notes' worth of doubt: a difference weighs more in a tune of few notes. 24 found the same; one bar's worth, whatever
// its notes, 187.
constexpr double kDoubtNotes = 16;

// Two found as many as four, one was not tried.
constexpr std::size_t kMovesTried = 2;

// Bars are tried against half bars where there are so many times the notes in a bar, and no fewer than so many; where
// they are few, as in 3/8 beside 6/8, with more doubt: without it 187 were found, without half bars 194.
constexpr float kHalfBars = 1.6F;
constexpr float kFewestInHalfBar = 2.4F, kFewInHalfBar = 3.4F;
constexpr double kDoubtOfFew = 0.3;

// What is shared as a likelihood: straight lines between these. Fitted to the same books: from the middle ones on 19 of
// 20 and three of four pairs are one tune, as titles and a reader say.
struct Likelihood {
    double shared, likeness;
};
constexpr std::array<Likelihood, 4> kLikelihoods{{{0, 0}, {0.20, kPossibleKin}, {0.34, kProbableKin}, {1, 1}}};

// The best sum over bars of `few` and `many` put side by side.
float align(const std::vector<ContourBar>& few, const std::vector<ContourBar>& many, float chance) {
    std::vector<float> row(many.size() + 1, 0.0F);
    float best = 0, best_before = 0;  // of the rows so far
    for (const ContourBar& bar : few) {
        float diagonal = 0, best_now = std::max(0.0F, best_before - kLeftOut);
        const float from_elsewhere = best_before - kElsewhere;
        for (std::size_t at = 0; at < many.size(); ++at) {
            const float gain = likeness_of(bar, many[at]) - chance;
            const float before = row[at + 1];
            row[at + 1] =
                std::max({0.0F, std::max(diagonal, from_elsewhere) + gain, std::max(before, row[at]) - kLeftOut});
            diagonal = before;
            best_now = std::max(best_now, row[at + 1]);
        }
        best_before = best_now;
        best = std::max(best, best_now);
    }
    return best;
}

// One order for the two, so that the answer is the same both ways.
bool comes_first(const Contour& a, const Contour& b) {
    if (a.bars.size() != b.bars.size()) return a.bars.size() < b.bars.size();
    return std::lexicographical_compare(
        a.bars.begin(), a.bars.end(), b.bars.begin(), b.bars.end(),
        [](const ContourBar& x, const ContourBar& y) { return x.pitch_classes < y.pitch_classes; });
}

double shared_bars(const Contour& a, const Contour& b) {
    const bool a_first = comes_first(a, b);
    const Contour& few = a_first ? a : b;
    const Contour& many = a_first ? b : a;
    if (few.bars.empty()) return 0;
    const auto ranked = rank_moves(few, many);
    const auto bars = static_cast<double>(few.bars.size());
    std::vector<ContourBar> there(few.bars.size());
    double best = 0;
    for (std::size_t rank = 0; rank < kMovesTried; ++rank) {
        std::transform(few.bars.begin(), few.bars.end(), there.begin(),
                       [&](const ContourBar& bar) { return moved(bar, ranked[rank].move); });
        const float chance = ranked[rank].chance;
        best = std::max(
            best, static_cast<double>(align(there, many.bars, chance)) / ((1.0 - static_cast<double>(chance)) * bars));
    }
    const double part = std::min(1.0, best);
    const double notes = std::max(1.0, static_cast<double>(few.notes) * bars);
    return std::max(0.0, part - (1 - part) * kDoubtNotes / notes);
}

}  // namespace

bool may_be_wider(const Contour& dense, const Contour& sparse) {
    return sparse.notes >= kFewestInHalfBar && dense.notes >= kHalfBars * sparse.notes;
}

double shared_part(const Contour& a, const Contour& b) {
    const double shared = shared_bars(a, b);
    const Contour& dense = a.notes > b.notes ? a : b;
    const Contour& sparse = a.notes > b.notes ? b : a;
    if (!may_be_wider(dense, sparse)) return shared;
    const double in_halves = shared_bars(in_half_bars(dense), sparse);
    const double doubt = sparse.notes < kFewInHalfBar ? kDoubtOfFew * (1 - in_halves) : 0;
    return std::max(shared, in_halves - doubt);
}

double compare(const Contour& a, const Contour& b) {
    const double shared = shared_part(a, b);
    for (std::size_t at = 1; at < kLikelihoods.size(); ++at) {
        const auto& [low, low_likeness] = kLikelihoods[at - 1];
        const auto& [high, high_likeness] = kLikelihoods[at];
        if (shared <= high) return low_likeness + (shared - low) / (high - low) * (high_likeness - low_likeness);
    }
    return 1;
}

}  // namespace analysis
