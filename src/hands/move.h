// A tune moved up or down so that it lies better on an instrument.
#pragma once

#include <optional>
#include <vector>

#include "instruments/instrument.h"
#include "music/key.h"
#include "tune/facts.h"

namespace hands {

// How far a tune may be moved either way. Source: an octave, by which every key is reached twice.
constexpr int kFurthestMove = 12;

struct Move {
    int semitones = 0;              // up; negative: down
    std::optional<music::Key> key;  // that it is then in; nothing where the tune has none
    bool is_customary = false;      // the key is one in which most tunes are played on the instrument
    double mean_grade = 0;          // of the notes of the tune at hand, each as often as it comes
    int hardest_grade = 0;
    int missing = 0;  // of the notes of the tune, counted as often as they come

    friend bool operator==(const Move&, const Move&) = default;
};

// All 25, the best first: fewest missing notes, then no note above grade 3, or above 4, then the easier mean, then a
// customary key, then the least change, then upwards. Means less than half a grade above the easiest count as as easy,
// so that a tune that lies well stays. The order of grades, keys and change is a house choice.
std::vector<Move> rank_moves(const std::vector<tune::NoteUse>& uses, const std::optional<music::Key>& key,
                             const instruments::Instrument& instrument);

// The same question of note sets alone: whether some move makes every note of `needed` one of `have`.
bool fits_moved(const music::NoteSet& needed, const music::NoteSet& have);

}  // namespace hands
