// Tested by beside_test.cc.
#include "analysis/beside.h"

#include <algorithm>
#include <cstdlib>
#include <utility>

#include "analysis/kinship.h"
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

// Notes by their place in the bars together.
struct NotesOfBars {
    std::vector<tune::OutlineNote> notes;
    std::uint64_t length = 0;
};

NotesOfBars notes_of(const tune::Outline& outline, const std::vector<std::uint32_t>& bars) {
    NotesOfBars all;
    for (const std::uint32_t bar : bars) {
        for (std::size_t note = outline.bars[bar].first_note; note < outline.end_of(bar); ++note) {
            all.notes.push_back(outline.notes[note]);
            all.notes.back().at += static_cast<std::uint32_t>(all.length);
        }
        all.length += outline.bars[bar].length;
    }
    all.length = std::max<std::uint64_t>(1, all.length);
    return all;
}

bool are_same_notes(const NotesOfBars& one, const NotesOfBars& other, int semitones) {
    return std::equal(one.notes.begin(), one.notes.end(), other.notes.begin(), other.notes.end(),
                      [&](const tune::OutlineNote& a, const tune::OutlineNote& b) {
                          // In bars of half the values too.
                          return (a.midi - b.midi - semitones) % 12 == 0 && a.at * other.length == b.at * one.length;
                      });
}

// Two tunes as they are laid beside one another, whole or in half bars.
struct Laid {
    Contour one, other;
    std::size_t one_parts = 1, other_parts = 1;  // of a bar: 2 for half bars
    Move move;
    BarsAligned aligned;

    // What a bar gains.
    float gain() const {
        return aligned.sum / static_cast<float>(std::max<std::size_t>(1, std::min(one.bars.size(), other.bars.size())));
    }
};

void lay(Laid& laid) {
    const auto ranked = rank_moves(laid.other, laid.one);
    for (std::size_t rank = 0; rank < kMovesLaid; ++rank) {
        BarsAligned found = align_bars(laid.one, laid.other, ranked[rank]);
        if (rank > 0 && found.sum <= laid.aligned.sum) continue;
        laid.aligned = std::move(found);
        laid.move = ranked[rank].move;
    }
}

Laid lay_best(const Contour& one, const Contour& other) {
    Laid best{one, other, 1, 1, {}, {}};
    lay(best);
    Laid halves = best;
    if (may_be_wider(one, other)) {
        halves.one = in_half_bars(one);
        halves.one_parts = 2;
    } else if (may_be_wider(other, one)) {
        halves.other = in_half_bars(other);
        halves.other_parts = 2;
    } else {
        return best;
    }
    lay(halves);
    return halves.gain() > best.gain() ? halves : best;
}

void add_bar(std::vector<std::uint32_t>& bars, std::uint32_t bar) {
    if (bars.empty() || bars.back() != bar) bars.push_back(bar);
}

}  // namespace

Beside lay_beside(const tune::Outline& one, const tune::Outline& other) {
    const Laid laid = lay_best(contour_of(one), contour_of(other));
    const std::vector<std::uint32_t> bars = play_bars_once(one), other_bars = play_bars_once(other);
    Beside beside;
    beside.semitones = static_cast<int>(laid.move.semitones);
    const double higher = mean_pitch(one) - mean_pitch(other);
    while (beside.semitones > higher + 6) beside.semitones -= 12;
    while (beside.semitones < higher - 6) beside.semitones += 12;
    std::size_t at = 0, other_at = 0;
    std::uint64_t letters_alone = 0, notes = 0;
    for (const BarStep step : laid.aligned.steps) {
        const bool has_one = step != BarStep::other, has_other = step != BarStep::one;
        // The second half of a bar stands beside what the first half began.
        const bool goes_on = at % laid.one_parts != 0 || other_at % laid.other_parts != 0;
        if (!goes_on) beside.bars.emplace_back();
        BarBeside& row = beside.bars.back();
        if (has_one) add_bar(row.one, bars[at / laid.one_parts]);
        if (has_other) add_bar(row.other, other_bars[other_at / laid.other_parts]);
        if (has_one && has_other) {
            const ContourBar there = moved(laid.other.bars[other_at], laid.move);
            for (std::size_t half = 0; half < 2; ++half) {
                const std::uint64_t same =
                    equal_groups(laid.one.bars[at].pitch_classes[half], there.pitch_classes[half]);
                const std::uint64_t same_letters = equal_groups(laid.one.bars[at].letters[half], there.letters[half]);
                notes += sum_of(same);
                letters_alone += sum_of(same_letters & ~same);
            }
        }
        at += has_one ? 1 : 0;
        other_at += has_other ? 1 : 0;
    }
    for (BarBeside& row : beside.bars)
        row.is_same = !row.one.empty() && !row.other.empty() &&
                      are_same_notes(notes_of(one, row.one), notes_of(other, row.other), beside.semitones);
    // An eighth as many: a mode differs in one note of seven at least. Source: house choice.
    beside.in_other_mode = letters_alone * 8 > notes;
    return beside;
}

}  // namespace analysis
