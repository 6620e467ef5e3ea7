// A tune made ready for comparing: what sounds at each place of its bars, by note and by letter.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "tune/outline.h"

namespace analysis {

// Places in a bar where two settings are compared. Source: house choice; the least number that both twos and threes of
// quavers divide, as in 4/4 and in 6/8.
constexpr std::size_t kSlots = 24;

// What sounds at each slot of a bar, a held note as much as a repeated one: four bits each, twelve slots a word.
struct ContourBar {
    std::array<std::uint64_t, 2> pitch_classes{};
    std::array<std::uint64_t, 2> letters{};  // 0 for C to 6 for B
};

// A tune as it is compared: its bars as play_bars_once plays them.
struct Contour {
    std::vector<ContourBar> bars;
    std::array<float, 12> shares{};        // of the slots, by pitch class
    std::array<float, 7> letter_shares{};  // and by letter
    float notes = 0;                       // struck in an average bar
};

// Bars beyond this many are not compared: the time to compare two tunes grows with the product of their bars.
// Source: house choice; no dance tune comes near it.
constexpr std::size_t kMostBarsCompared = 256;

// The letters are those of the major scale that has most of the notes, with what lies nearest to it by fifths: how a
// note is spelled in the file does not count.
Contour contour_of(const tune::Outline& outline);

// What the same letter is worth beside the same note, where two bars are compared. Source: house choice, as the
// constants of kinship.cc: 0.9 found as many; letters not counted, by an earlier form of the rest, 187 for 193.
constexpr float kSameLetter = 0.8F;

// How one tune may lie beside another: letters and semitones higher.
struct Move {
    std::size_t letters = 0, semitones = 0;
};
constexpr std::size_t kMoves = 13;

struct RankedMove {
    float in_common = 0;  // of notes and letters, by their shares
    float chance = 0;     // the likeness of two bars that says nothing
    Move move{};
};

// What `from` has in common with `to` when it is moved, most first; by the shares alone, whatever the order of notes.
std::array<RankedMove, kMoves> rank_moves(const Contour& from, const Contour& to);

// Silence moved is like no silence.
ContourBar moved(const ContourBar& bar, const Move& move);

inline constexpr std::uint64_t kOnes = 0x111111111111;

// A one in each of the twelve groups of four bits that is equal.
inline std::uint64_t equal_groups(std::uint64_t a, std::uint64_t b) {
    std::uint64_t differing = a ^ b;
    differing |= differing >> 2;
    differing |= differing >> 1;
    return ~differing & kOnes;
}

// The sum of groups that are at most two each.
inline std::uint64_t sum_of(std::uint64_t groups) {
    groups = (groups + (groups >> 4)) & 0x0F0F0F0F0F0F;
    return groups * 0x010101010101 >> 40 & 0xFF;
}

// The share of places with the same note, those with the same letter alone counting kSameLetter. Here, since comparing
// tunes does little else.
inline float likeness_of(const ContourBar& a, const ContourBar& b) {
    const std::uint64_t first = equal_groups(a.pitch_classes[0], b.pitch_classes[0]);
    const std::uint64_t second = equal_groups(a.pitch_classes[1], b.pitch_classes[1]);
    const std::uint64_t notes = sum_of(first + second);
    const std::uint64_t either = sum_of((first | equal_groups(a.letters[0], b.letters[0])) +
                                        (second | equal_groups(a.letters[1], b.letters[1])));
    constexpr float kWhole = kSlots;
    return static_cast<float>(notes) * ((1 - kSameLetter) / kWhole) +
           static_cast<float>(either) * (kSameLetter / kWhole);
}

// Each half of each bar as a bar.
Contour in_half_bars(const Contour& contour);

}  // namespace analysis
