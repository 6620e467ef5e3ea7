// Tested by kinship_test.cc.
#include "analysis/contour.h"

#include <algorithm>
#include <numeric>

#include "analysis/play_order.h"

namespace analysis {

namespace {

constexpr std::size_t kSlotsOfHalf = kSlots / 2;
constexpr std::uint64_t kSilent = 15;           // before the first note
constexpr std::uint64_t kSilentElsewhere = 14;  // the same on the other side, so that silence is never alike

// The share of equal slots that adds nothing when two bars are aligned; above it they gain, below they lose: this, and
// what the two have in common by the shares of their notes alone. 0.1 found the same.
constexpr float kChance = 0.15F;
constexpr float kMostChance = 0.7F;

constexpr std::array<Move, kMoves> kAllMoves{
    {{0, 0}, {1, 1}, {1, 2}, {2, 3}, {2, 4}, {3, 5}, {3, 6}, {4, 6}, {4, 7}, {5, 8}, {5, 9}, {6, 10}, {6, 11}}};

void put(std::array<std::uint64_t, 2>& halves, std::size_t slot, std::uint64_t value) {
    halves[slot / kSlotsOfHalf] |= value << (4 * (slot % kSlotsOfHalf));
}
std::uint64_t value_at(const std::array<std::uint64_t, 2>& halves, std::size_t slot) {
    return halves[slot / kSlotsOfHalf] >> (4 * (slot % kSlotsOfHalf)) & 15;
}

// Each half of each bar as a bar.
std::vector<ContourBar> halved(const std::vector<ContourBar>& bars) {
    std::vector<ContourBar> halves;
    halves.reserve(2 * bars.size());
    for (const ContourBar& bar : bars)
        for (std::size_t from = 0; from < kSlots; from += kSlotsOfHalf) {
            ContourBar& half = halves.emplace_back();
            for (std::size_t slot = 0; slot < kSlots; ++slot) {
                put(half.pitch_classes, slot, value_at(bar.pitch_classes, from + slot / 2));
                put(half.letters, slot, value_at(bar.letters, from + slot / 2));
            }
        }
    return halves;
}

// The letter of each pitch class, where the major scale of so many fifths above C has most of them: its seven, three
// fifths more on the sharp side and two on the flat one.
std::array<std::size_t, 12> letters_of(int fifths) {
    std::array<std::size_t, 12> letters{};
    for (int place = fifths - 3; place < fifths + 9; ++place)
        letters[static_cast<std::size_t>((place * 7 + 84) % 12)] = static_cast<std::size_t>((place * 4 + 84) % 7);
    return letters;
}

std::array<std::size_t, 12> likeliest_letters(const std::array<float, 12>& shares) {
    int best = 0;
    float most = -1;
    for (const int fifths : {0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6}) {
        float inside = 0;
        for (int place = fifths - 1; place < fifths + 6; ++place)
            inside += shares[static_cast<std::size_t>((place * 7 + 84) % 12)];
        if (inside <= most + 1e-6F) continue;
        most = inside;
        best = fifths;
    }
    return letters_of(best);
}

}  // namespace

ContourBar moved(const ContourBar& bar, const Move& move) {
    ContourBar there;
    for (std::size_t slot = 0; slot < kSlots; ++slot) {
        const std::uint64_t pitch_class = value_at(bar.pitch_classes, slot), letter = value_at(bar.letters, slot);
        put(there.pitch_classes, slot, pitch_class < 12 ? (pitch_class + move.semitones) % 12 : kSilentElsewhere);
        put(there.letters, slot, letter < 7 ? (letter + move.letters) % 7 : kSilentElsewhere);
    }
    return there;
}

std::array<RankedMove, kMoves> rank_moves(const Contour& from, const Contour& to) {
    std::array<RankedMove, kMoves> ranked;
    for (std::size_t at = 0; at < kMoves; ++at) {
        float notes = 0, letters = 0;
        for (std::size_t note = 0; note < 12; ++note)
            notes += from.shares[note] * to.shares[(note + kAllMoves[at].semitones) % 12];
        for (std::size_t letter = 0; letter < 7; ++letter)
            letters += from.letter_shares[letter] * to.letter_shares[(letter + kAllMoves[at].letters) % 7];
        ranked[at] = {notes + letters,
                      std::min(kMostChance, kChance + (1 - kSameLetter) * notes + kSameLetter * letters),
                      kAllMoves[at]};
    }
    std::stable_sort(ranked.begin(), ranked.end(),
                     [](const RankedMove& a, const RankedMove& b) { return a.in_common > b.in_common; });
    return ranked;
}

Contour in_half_bars(const Contour& contour) {
    Contour halves = contour;
    halves.bars = halved(contour.bars);
    halves.notes = contour.notes / 2;
    return halves;
}

Contour contour_of(const tune::Outline& outline) {
    std::vector<std::uint32_t> bars = play_bars_once(outline);
    const std::uint64_t length = usual_bar_length(outline, bars);
    Contour contour;
    if (length == 0) return contour;
    bars.resize(std::min(bars.size(), kMostBarsCompared));
    contour.bars.reserve(bars.size());
    std::uint64_t sounding = kSilent;
    for (const std::uint32_t bar : bars) {
        ContourBar& slots = contour.bars.emplace_back();
        std::size_t note = outline.bars[bar].first_note;
        const std::size_t end = outline.end_of(bar);
        contour.notes += static_cast<float>(end - note) / static_cast<float>(bars.size());
        for (std::size_t slot = 0; slot < kSlots; ++slot) {
            for (; note < end && std::uint64_t{outline.notes[note].at} * kSlots <= slot * length; ++note)
                sounding = outline.notes[note].midi % 12U;
            put(slots.pitch_classes, slot, sounding);
            if (sounding != kSilent) contour.shares[static_cast<std::size_t>(sounding)] += 1;
        }
        if (note < end) sounding = outline.notes[end - 1].midi % 12U;
    }
    const float whole = std::accumulate(contour.shares.begin(), contour.shares.end(), 0.0F);
    for (float& share : contour.shares) share = whole > 0 ? share / whole : 0;
    const auto letters = likeliest_letters(contour.shares);
    for (std::size_t note = 0; note < 12; ++note) contour.letter_shares[letters[note]] += contour.shares[note];
    for (ContourBar& bar : contour.bars)
        for (std::size_t slot = 0; slot < kSlots; ++slot) {
            const std::uint64_t pitch_class = value_at(bar.pitch_classes, slot);
            put(bar.letters, slot, pitch_class < 12 ? letters[static_cast<std::size_t>(pitch_class)] : kSilent);
        }
    return contour;
}

}  // namespace analysis
