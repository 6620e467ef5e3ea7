#include "hands/drill.h"

#include <algorithm>
#include <set>

#include "music/pitch.h"

namespace hands {

namespace {

std::vector<std::vector<int>> in_bars(const std::vector<int>& notes) {
    std::vector<std::vector<int>> bars;
    for (const int midi : notes) {
        if (bars.empty() || bars.back().size() == kNotesPerBar) bars.emplace_back();
        bars.back().push_back(midi);
    }
    return bars;
}

// What each bar plays: 0 is the new note, 1 and 2 are its neighbours above, -1 and -2 those below.
constexpr int kBothSides[][kNotesPerBar]{{-1, 0, 1, 0}, {1, 0, -1, 0}, {-2, -1, 0, 1}, {2, 1, 0, -1}};
// The same where all neighbours are on one side.
constexpr int kOneSide[][kNotesPerBar]{{1, 0, 1, 0}, {2, 0, 1, 0}, {2, 1, 0, 1}, {0, 1, 2, 0}};

// Up to two notes from `at` upwards (step 1) or downwards (-1), the nearest first: no other note of its letter, and of
// every letter one.
std::vector<int> neighbours(const std::vector<int>& notes, std::size_t at, int step, int fifths) {
    std::vector<int> found;
    std::set<music::Letter> letters{music::spell_midi(notes[at], fifths).name.letter};
    for (int place = static_cast<int>(at) + step; place >= 0 && place < static_cast<int>(notes.size()); place += step) {
        const int midi = notes[static_cast<std::size_t>(place)];
        if (letters.insert(music::spell_midi(midi, fifths).name.letter).second) found.push_back(midi);
        if (found.size() == 2) break;
    }
    return found;
}

// The nearer one where there are not so many, the note itself where there is none.
int neighbour(const std::vector<int>& neighbours, int steps, int midi) {
    if (steps == 0 || neighbours.empty()) return midi;
    return neighbours[std::min(static_cast<std::size_t>(steps), neighbours.size()) - 1];
}

Passage around(const std::vector<int>& notes, std::size_t at, int fifths) {
    const std::vector<int> above = neighbours(notes, at, 1, fifths), below = neighbours(notes, at, -1, fifths);
    const bool are_on_both_sides = !above.empty() && !below.empty();
    const std::vector<int>& only = above.empty() ? below : above;
    Passage passage{Passage::Kind::around, notes[at], {}};
    for (const auto& pattern : are_on_both_sides ? kBothSides : kOneSide) {
        std::vector<int>& bar = passage.bars.emplace_back();
        for (const int steps : pattern)
            bar.push_back(!are_on_both_sides ? neighbour(only, steps, notes[at])
                          : steps < 0        ? neighbour(below, -steps, notes[at])
                                             : neighbour(above, steps, notes[at]));
    }
    return passage;
}

}  // namespace

std::string_view passage_token(Passage::Kind kind) noexcept {
    return kind == Passage::Kind::around ? "around" : "up-and-down";
}

std::vector<Passage> make_drill(const music::NoteSet& notes, const music::NoteSet& fresh, int fifths) {
    if (notes.empty()) return {};
    const std::vector<int> up = notes.midi_numbers();
    std::vector<int> both = up;
    both.insert(both.end(), up.rbegin() + 1, up.rend());
    std::vector<Passage> drill{{Passage::Kind::up_and_down, 0, in_bars(both)}};
    for (std::size_t at = 0; at < up.size(); ++at)
        if (fresh.has(up[at])) drill.push_back(around(up, at, fifths));
    return drill;
}

std::vector<LineNote> line_of(const Passage& passage) {
    std::vector<LineNote> line;
    for (std::size_t bar = 0; bar < passage.bars.size(); ++bar)
        for (const int midi : passage.bars[bar]) {
            LineNote& note = line.emplace_back();
            note.midi = midi;
            note.bar = static_cast<int>(bar) + 1;
            note.bar_index = bar;
            note.length = kLongNote;
        }
    return line;
}

}  // namespace hands
