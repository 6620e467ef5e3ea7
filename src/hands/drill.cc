#include "hands/drill.h"

#include <algorithm>

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

// With neighbours 1 and 2 below and above the new note 0, what each bar plays; what is not there is the note itself.
constexpr int kPatterns[][kNotesPerBar]{{-1, 0, 1, 0}, {1, 0, -1, 0}, {-2, -1, 0, 1}, {2, 1, 0, -1}};

Passage around(const std::vector<int>& notes, std::size_t at) {
    Passage passage{Passage::Kind::around, notes[at], {}};
    const auto last = static_cast<int>(notes.size()) - 1;
    for (const auto& pattern : kPatterns) {
        std::vector<int>& bar = passage.bars.emplace_back();
        for (const int step : pattern) {
            const int place = std::clamp(static_cast<int>(at) + step, 0, last);
            bar.push_back(notes[static_cast<std::size_t>(place)]);
        }
    }
    return passage;
}

}  // namespace

std::string_view passage_token(Passage::Kind kind) noexcept {
    return kind == Passage::Kind::around ? "around" : "up-and-down";
}

std::vector<Passage> make_drill(const music::NoteSet& notes, const music::NoteSet& fresh) {
    if (notes.empty()) return {};
    const std::vector<int> up = notes.midi_numbers();
    std::vector<int> both = up;
    both.insert(both.end(), up.rbegin() + 1, up.rend());
    std::vector<Passage> drill{{Passage::Kind::up_and_down, 0, in_bars(both)}};
    for (std::size_t at = 0; at < up.size(); ++at)
        if (fresh.has(up[at])) drill.push_back(around(up, at));
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
