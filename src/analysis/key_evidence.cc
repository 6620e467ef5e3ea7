#include "analysis/key_evidence.h"

#include <algorithm>
#include <iterator>
#include <numeric>
#include <vector>

#include "analysis/note_uses.h"
#include "analysis/tune_end.h"

namespace analysis {

namespace {

struct Note {
    int midi = 60;
    double length = 0;  // in whole notes
    bool is_strong = false;
    std::uint32_t bar = 0;  // into Melody::bars
};

struct Notes {
    std::vector<Note> all;
    std::size_t end = 0;  // one past the one a player ends on
};

Notes notes_of(const music::Melody& melody) {
    Notes read;
    std::vector<Note>& notes = read.all;
    notes.reserve(melody.sounds.size());
    const std::size_t end = find_tune_end(melody);
    for (std::size_t at = 0; at < melody.sounds.size(); ++at) {
        const music::Sound& sound = melody.sounds[at];
        if (sound.kind != music::Sound::Kind::note) continue;
        if (at < end) read.end = notes.size() + 1;
        notes.push_back(
            {top_note(melody, sound),
             static_cast<double>(sound.length.numerator()) / static_cast<double>(sound.length.denominator()),
             stands_strong(melody, sound), sound.bar});
    }
    return read;
}

std::size_t class_of(int midi) { return static_cast<std::size_t>(midi % 12); }

ByPitchClass only(int midi) {
    ByPitchClass one{};
    one[class_of(midi)] = 1;
    return one;
}

ByPitchClass shares(ByPitchClass sums) {
    const double whole = std::accumulate(sums.begin(), sums.end(), 0.0);
    if (whole > 0)
        for (double& sum : sums) sum /= whole;
    return sums;
}

bool ends_part(const music::Bar& bar) { return bar.repeat_closes || bar.thick_after; }

// Adds the first two numbered bars of every part to `openings` and the last note of every part to `part_ends`.
void add_parts(const music::Melody& melody, const std::vector<Note>& notes, KeyEvidence& evidence) {
    constexpr int kOpeningBars = 2;  // house choice: measured on Aird's and O'Neill's beside one bar and none
    const std::vector<int> numbers = number_bars(melody);
    std::size_t at = 0;
    for (std::uint32_t begin = 0; at < notes.size();) {
        std::uint32_t end = begin;
        while (end + 1 < melody.bars.size() && !ends_part(melody.bars[end])) ++end;
        int bars_met = 0;
        int number = 0;
        const std::size_t first = at;
        for (; at < notes.size() && notes[at].bar <= end; ++at) {
            if (!is_pickup(melody, notes[at].bar) && numbers[notes[at].bar] != number) {
                number = numbers[notes[at].bar];
                ++bars_met;
            }
            if (bars_met >= 1 && bars_met <= kOpeningBars)
                evidence.openings[class_of(notes[at].midi)] += notes[at].length;
        }
        if (at > first) evidence.part_ends[class_of(notes[at - 1].midi)] += 1;
        begin = end + 1;
    }
}

}  // namespace

std::optional<KeyEvidence> find_key_evidence(const music::Melody& melody) {
    const auto [notes, end] = notes_of(melody);
    if (notes.empty()) return std::nullopt;
    KeyEvidence evidence;
    const Note* first_strong = nullptr;
    const Note* last_strong = nullptr;
    for (const Note& note : notes) {
        evidence.time[class_of(note.midi)] += note.length;
        evidence.counts[class_of(note.midi)] += 1;
        if (!note.is_strong) continue;
        evidence.strong_time[class_of(note.midi)] += note.length;
        if (first_strong == nullptr) first_strong = &note;
        if (&note < notes.data() + end) last_strong = &note;
    }
    evidence.notes = static_cast<int>(notes.size());
    evidence.names = static_cast<int>(12 - std::count(evidence.time.begin(), evidence.time.end(), 0.0));
    if (first_strong == nullptr) evidence.strong_time = evidence.time;
    evidence.first_strong = only((first_strong != nullptr ? *first_strong : notes.front()).midi);
    evidence.last_note = notes[end - 1].midi;
    evidence.last_strong_note = (last_strong != nullptr ? *last_strong : notes[end - 1]).midi;
    evidence.last_strong = only(evidence.last_strong_note);
    evidence.last = only(evidence.last_note);
    const auto from = std::make_reverse_iterator(notes.begin() + static_cast<std::ptrdiff_t>(end));
    const auto before = std::find_if(
        from, notes.rend(), [&](const Note& note) { return class_of(note.midi) != class_of(evidence.last_note); });
    if (before != notes.rend()) evidence.before_last = only(before->midi);
    add_parts(melody, notes, evidence);
    evidence.time = shares(evidence.time);
    evidence.strong_time = shares(evidence.strong_time);
    evidence.openings = shares(evidence.openings);
    evidence.part_ends = shares(evidence.part_ends);
    return evidence;
}

}  // namespace analysis
