// Tested by rungs_test.cc.
#include "answers/rungs.h"

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace answers {

namespace {

constexpr int kMostTogether = 3;

struct NoteSetLess {
    bool operator()(const music::NoteSet& a, const music::NoteSet& b) const {
        return std::pair(a.high(), a.low()) < std::pair(b.high(), b.low());
    }
};

// What each way of playing one tune lacks.
using Lacks = std::vector<music::NoteSet>;

bool is_open(const Lacks& lacks) {
    return std::any_of(lacks.begin(), lacks.end(), [](const music::NoteSet& lack) { return lack.empty(); });
}

template <typename Visit>
void each_tune(const std::vector<collection::TuneNotes>& tunes, const music::NoteSet& have, Visit visit) {
    for (std::size_t at = 0; at < tunes.size();) {
        Lacks lacks;
        music::NoteSet needed;
        const tune::TuneId id = tunes[at].id;
        for (; at < tunes.size() && tunes[at].id == id; ++at) {
            lacks.push_back(tunes[at].needed.without(have));
            needed = needed | tunes[at].needed;
        }
        visit(lacks, needed);
    }
}

}  // namespace

Rungs rungs_of(const std::vector<collection::TuneNotes>& tunes, const music::NoteSet& have, const music::NoteSet& fresh,
               const instruments::Instrument* instrument) {
    Rungs answer;
    std::array<std::int64_t, music::kMidiNotes> opens{}, uses{};
    std::map<music::NoteSet, std::int64_t, NoteSetLess> together;
    const music::NoteSet there = have | fresh;
    each_tune(tunes, there, [&](const Lacks& lacks, const music::NoteSet& needed) {
        ++answer.tunes;
        for (const int midi : needed.midi_numbers()) ++uses[static_cast<std::size_t>(midi)];
        if (is_open(lacks)) {
            ++answer.open;
            return;
        }
        std::map<music::NoteSet, bool, NoteSetLess> told;  // each lack of a tune counts once
        for (const music::NoteSet& lack : lacks) {
            if (lack.size() > kMostTogether || !told.emplace(lack, true).second) continue;
            if (lack.size() == 1)
                ++opens[static_cast<std::size_t>(lack.lowest())];
            else
                ++together[lack];
        }
    });
    if (!fresh.empty())
        each_tune(tunes, have, [&](const Lacks& lacks, const music::NoteSet&) {
            if (is_open(lacks)) return;
            for (const music::NoteSet& lack : lacks)
                if (lack.is_within(fresh)) {
                    for (const int midi : lack.midi_numbers()) ++opens[static_cast<std::size_t>(midi)];
                    return;
                }
        });
    const music::NoteSet reach = instrument ? instrument->note_set() : music::every_note();
    for (int midi = 0; midi < music::kMidiNotes; ++midi) {
        const auto at = static_cast<std::size_t>(midi);
        const bool is_there = there.has(midi);
        if (!is_there && (uses[at] == 0 || !reach.has(midi))) continue;
        if (!is_there && uses[at] * kHardlyOneIn < answer.tunes) {
            ++answer.hardly;
            continue;
        }
        answer.rungs.push_back({midi, have.has(midi) && !fresh.has(midi), fresh.has(midi), opens[at], uses[at]});
        if (!is_there && opens[at] > 0 && (!answer.next || opens[at] > opens[static_cast<std::size_t>(*answer.next)]))
            answer.next = midi;
    }
    for (const auto& [notes, count] : together) {
        const std::vector<int> midis = notes.midi_numbers();
        const bool is_needed = std::any_of(midis.begin(), midis.end(),
                                           [&](int midi) { return opens[static_cast<std::size_t>(midi)] == 0; });
        if (is_needed && notes.is_within(reach)) answer.groups.push_back({notes, count});
    }
    std::stable_sort(answer.groups.begin(), answer.groups.end(), [](const RungGroup& a, const RungGroup& b) {
        return a.opens != b.opens ? a.opens > b.opens : a.notes.lowest() < b.notes.lowest();
    });
    return answer;
}

}  // namespace answers
