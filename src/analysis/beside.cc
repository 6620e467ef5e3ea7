// Tested by beside_test.cc.
#include "analysis/beside.h"

#include <algorithm>
#include <cstdlib>

#include "analysis/contour.h"
#include "analysis/play_order.h"

namespace analysis {

namespace {

// A bar without a partner costs as much as two bars whose likeness is so far below the chance one. Source: house
// choice.
constexpr float kBarAlone = 0.1F;

// Moves that are tried. Source: house choice.
constexpr std::size_t kMovesLaid = 3;

enum class BarStep : std::uint8_t { both, one, other };

struct BarsAligned {
    float sum = 0;
    std::vector<BarStep> steps;  // from the start
};

BarsAligned align_bars(const Contour& one, const Contour& other, const RankedMove& ranked) {
    std::vector<ContourBar> there(other.bars.size());
    std::transform(other.bars.begin(), other.bars.end(), there.begin(),
                   [&](const ContourBar& bar) { return moved(bar, ranked.move); });
    const std::size_t width = there.size() + 1;
    std::vector<float> sums((one.bars.size() + 1) * width);
    std::vector<BarStep> steps(sums.size());
    for (std::size_t i = 0; i <= one.bars.size(); ++i)
        for (std::size_t j = 0; j < width; ++j) {
            if (i == 0 && j == 0) continue;
            float& sum = sums[i * width + j];
            BarStep& step = steps[i * width + j];
            sum = -1e9F;
            const auto offer = [&](float offered, BarStep how) {
                if (offered <= sum) return;
                sum = offered;
                step = how;
            };
            if (i > 0 && j > 0)
                offer(sums[(i - 1) * width + j - 1] + likeness_of(one.bars[i - 1], there[j - 1]) - ranked.chance,
                      BarStep::both);
            if (i > 0) offer(sums[(i - 1) * width + j] - kBarAlone, BarStep::one);
            if (j > 0) offer(sums[i * width + j - 1] - kBarAlone, BarStep::other);
        }
    BarsAligned alignment{sums.back(), {}};
    for (std::size_t i = one.bars.size(), j = there.size(); i > 0 || j > 0;) {
        const BarStep step = steps[i * width + j];
        alignment.steps.push_back(step);
        if (step != BarStep::other) --i;
        if (step != BarStep::one) --j;
    }
    std::reverse(alignment.steps.begin(), alignment.steps.end());
    return alignment;
}

double mean_pitch(const tune::Outline& outline) {
    double sum = 0;
    for (const tune::OutlineNote& note : outline.notes) sum += note.midi;
    return outline.notes.empty() ? 0 : sum / static_cast<double>(outline.notes.size());
}

bool are_same_bars(const tune::Outline& one, std::uint32_t bar, const tune::Outline& other, std::uint32_t other_bar,
                   int semitones) {
    const std::size_t from = one.bars[bar].first_note, other_from = other.bars[other_bar].first_note;
    const std::size_t count = one.end_of(bar) - from;
    if (count != other.end_of(other_bar) - other_from) return false;
    const std::uint64_t length = std::max(1U, one.bars[bar].length),
                        other_length = std::max(1U, other.bars[other_bar].length);
    for (std::size_t note = 0; note < count; ++note) {
        const tune::OutlineNote &a = one.notes[from + note], &b = other.notes[other_from + note];
        if ((a.midi - b.midi - semitones) % 12 != 0) return false;
        if (a.at * other_length != b.at * length) return false;  // in bars of half the values too
    }
    return true;
}

}  // namespace

Beside lay_beside(const tune::Outline& one, const tune::Outline& other) {
    const Contour contour = contour_of(one), other_contour = contour_of(other);
    std::vector<std::uint32_t> bars = play_bars_once(one), other_bars = play_bars_once(other);
    bars.resize(contour.bars.size());
    other_bars.resize(other_contour.bars.size());
    const auto ranked = rank_moves(other_contour, contour);
    BarsAligned best;
    Move move;
    for (std::size_t rank = 0; rank < kMovesLaid; ++rank) {
        BarsAligned found = align_bars(contour, other_contour, ranked[rank]);
        if (rank > 0 && found.sum <= best.sum) continue;
        best = std::move(found);
        move = ranked[rank].move;
    }
    Beside beside;
    beside.semitones = static_cast<int>(move.semitones);
    const double higher = mean_pitch(one) - mean_pitch(other);
    while (beside.semitones > higher + 6) beside.semitones -= 12;
    while (beside.semitones < higher - 6) beside.semitones += 12;
    std::size_t at = 0, other_at = 0, letters_alone = 0, notes = 0;
    for (const BarStep step : best.steps) {
        BarBeside pair;
        if (step != BarStep::other) pair.one = bars[at];
        if (step != BarStep::one) pair.other = other_bars[other_at];
        if (step == BarStep::both) {
            pair.is_same = are_same_bars(one, bars[at], other, other_bars[other_at], beside.semitones);
            const ContourBar there = moved(other_contour.bars[other_at], move);
            for (std::size_t half = 0; half < 2; ++half) {
                const std::uint64_t same =
                    equal_groups(contour.bars[at].pitch_classes[half], there.pitch_classes[half]);
                const std::uint64_t same_letters = equal_groups(contour.bars[at].letters[half], there.letters[half]);
                notes += sum_of(same);
                letters_alone += sum_of(same_letters & ~same);
            }
        }
        at += step != BarStep::other ? 1 : 0;
        other_at += step != BarStep::one ? 1 : 0;
        beside.bars.push_back(pair);
    }
    // An eighth as many: a mode differs in one note of seven at least. Source: house choice.
    beside.in_other_mode = letters_alone * 8 > notes;
    return beside;
}

}  // namespace analysis
