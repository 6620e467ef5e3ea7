// Tested by rungs_test.cc.
#include "page/rungs.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace page {

Rungs rungs_of(std::span<const music::NoteSet> tunes, const music::NoteSet& have) {
    Rungs found;
    std::array<std::int64_t, music::kMidiNotes> uses{}, opens{};
    std::map<std::pair<std::uint64_t, std::uint64_t>, std::int64_t> groups;
    for (const music::NoteSet& needed : tunes) {
        if (needed.empty()) continue;
        ++found.tunes;
        for (const int midi : needed.midi_numbers()) ++uses[static_cast<std::size_t>(midi)];
        const music::NoteSet lacking = needed.without(have);
        const int count = lacking.size();
        if (count == 0) ++found.open;
        if (count == 1) ++opens[static_cast<std::size_t>(lacking.lowest())];
        if (count > 1 && count <= kMostTogether) ++groups[{lacking.low(), lacking.high()}];
    }
    for (int midi = 0; midi < music::kMidiNotes; ++midi) {
        const auto at = static_cast<std::size_t>(midi);
        if (have.has(midi) || uses[at] > 0) found.rungs.push_back({midi, have.has(midi), uses[at], opens[at]});
    }
    for (const auto& [bits, count] : groups) {
        const Bracket bracket{{bits.first, bits.second}, count};
        const std::vector<int> notes = bracket.notes.midi_numbers();
        if (std::any_of(notes.begin(), notes.end(),
                        [&](int midi) { return opens[static_cast<std::size_t>(midi)] == 0; }))
            found.brackets.push_back(bracket);
    }
    std::stable_sort(found.brackets.begin(), found.brackets.end(), [](const Bracket& a, const Bracket& b) {
        if (a.opens != b.opens) return a.opens > b.opens;
        if (a.notes.size() != b.notes.size()) return a.notes.size() < b.notes.size();
        return a.notes.midi_numbers() < b.notes.midi_numbers();
    });
    if (found.brackets.size() > kMostBrackets) found.brackets.resize(kMostBrackets);
    return found;
}

}  // namespace page
