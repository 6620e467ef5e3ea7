#include "planner/ease.h"

#include <algorithm>
#include <cstdlib>
#include <tuple>
#include <vector>

namespace planner {
namespace {

// Of C, C#, D ... B: which have a sharp or flat.
bool is_accidental(int midi) noexcept {
    constexpr unsigned kBlackKeys = 0b0101'0100'1010;  // bits 1 3 6 8 10
    return (kBlackKeys >> (midi % 12) & 1U) != 0;
}

// Semitones to the nearest known note; 0 where none is known.
int leap(int midi, const music::NoteSet& known) noexcept {
    if (known.empty()) return 0;
    int semitones = 0;
    while (!(midi - semitones >= 0 && known.has(midi - semitones)) &&
           !(midi + semitones < music::kMidiNotes && known.has(midi + semitones)))
        ++semitones;
    return semitones;
}

}  // namespace

bool is_easier(int a, int b, const music::NoteSet& known) noexcept {
    if (is_accidental(a) != is_accidental(b)) return !is_accidental(a);
    return std::tuple(leap(a, known), a) < std::tuple(leap(b, known), b);
}

bool is_easier(const music::NoteSet& a, const music::NoteSet& b, const music::NoteSet& known) {
    if (a.size() != b.size()) return a.size() < b.size();
    const auto by_ease = [&known](const music::NoteSet& set) {
        std::vector<int> notes = set.midi_numbers();
        std::sort(notes.begin(), notes.end(), [&known](int x, int y) { return is_easier(x, y, known); });
        return notes;
    };
    const std::vector<int> of_a = by_ease(a);
    const std::vector<int> of_b = by_ease(b);
    for (std::size_t place = 0; place < of_a.size(); ++place)
        if (of_a[place] != of_b[place]) return is_easier(of_a[place], of_b[place], known);
    return false;
}

}  // namespace planner
