#include "hands/move.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <tuple>

namespace hands {

namespace {

bool is_midi(int midi) { return midi >= 0 && midi < music::kMidiNotes; }

bool is_same_key(const music::Key& a, const music::Key& b) {
    return a.tonic.pitch_class() == b.tonic.pitch_class() && a.mode == b.mode;
}

Move weigh(const std::vector<tune::NoteUse>& uses, const std::optional<music::Key>& key,
           const instruments::Instrument& instrument, int semitones) {
    Move move;
    move.semitones = semitones;
    if (key) {
        move.key = semitones == 0 ? *key : music::moved(*key, semitones);
        move.is_customary = std::any_of(instrument.keys.begin(), instrument.keys.end(),
                                        [&](const music::Key& usual) { return is_same_key(usual, *move.key); });
    }
    int at_hand = 0;
    int grades = 0;
    for (const tune::NoteUse& use : uses) {
        const int midi = use.midi + semitones;
        const int grade = is_midi(midi) ? instrument.grade(midi) : 0;
        if (grade == 0) {
            move.missing += std::max(use.count, 1);
            continue;
        }
        at_hand += use.count;
        grades += use.count * grade;
        move.hardest_grade = std::max(move.hardest_grade, grade);
    }
    move.mean_grade = at_hand > 0 ? static_cast<double>(grades) / at_hand : 0;
    return move;
}

// A note of grade 4 or 5 makes a tune a harder one, however seldom it comes; up to grade 3 all are in reach.
int hardness(const Move& move) { return std::max(move.hardest_grade, 3); }

// How many halves of a grade a move lies above the easiest of those that lack as few.
int halves_above(const Move& move, double easiest) { return static_cast<int>((move.mean_grade - easiest) * 2); }

}  // namespace

std::vector<Move> rank_moves(const std::vector<tune::NoteUse>& uses, const std::optional<music::Key>& key,
                             const instruments::Instrument& instrument) {
    std::vector<Move> moves;
    for (int semitones = -kFurthestMove; semitones <= kFurthestMove; ++semitones)
        moves.push_back(weigh(uses, key, instrument, semitones));
    std::map<std::pair<int, int>, double> easiest;  // of those alike in what is missing and in the hardest note
    for (const Move& move : moves) {
        const auto [entry, is_new] = easiest.try_emplace({move.missing, hardness(move)}, move.mean_grade);
        entry->second = std::min(entry->second, move.mean_grade);
    }
    const auto rank = [&easiest](const Move& move) {
        return std::tuple(move.missing, hardness(move), halves_above(move, easiest[{move.missing, hardness(move)}]),
                          !move.is_customary, std::abs(move.semitones), -move.semitones);
    };
    std::sort(moves.begin(), moves.end(), [&rank](const Move& a, const Move& b) { return rank(a) < rank(b); });
    return moves;
}

bool fits_moved(const music::NoteSet& needed, const music::NoteSet& have) {
    const std::vector<int> notes = needed.midi_numbers();
    for (int semitones = -kFurthestMove; semitones <= kFurthestMove; ++semitones)
        if (std::all_of(notes.begin(), notes.end(),
                        [&](int midi) { return is_midi(midi + semitones) && have.has(midi + semitones); }))
            return true;
    return false;
}

}  // namespace hands
