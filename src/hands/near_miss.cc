#include "hands/near_miss.h"

#include <algorithm>
#include <cstdlib>
#include <map>

namespace hands {

namespace {

constexpr int kOctave = 12;

// Where a missing note is at hand an octave away: up for one in the lower half of what is there, else down; the other
// way round where only that is there.
std::optional<int> folded(int midi, const music::NoteSet& have) {
    const int middle = (have.lowest() + have.highest()) / 2;
    const int first = midi <= middle ? kOctave : -kOctave;
    for (const int step : {first, -first}) {
        const int other = midi + step;
        if (other >= 0 && other < music::kMidiNotes && have.has(other)) return other;
    }
    return std::nullopt;
}

// The note before, or after, that is at hand: the nearer in pitch, the one before of two as near.
std::optional<int> neighbour_of(const std::vector<LineNote>& line, std::size_t at, const music::NoteSet& have) {
    std::optional<int> best;
    const auto offer = [&](std::size_t other) {
        const int midi = line[other].midi;
        if (!line[other].is_beneath && have.has(midi) &&
            (!best || std::abs(midi - line[at].midi) < std::abs(*best - line[at].midi)))
            best = midi;
    };
    if (at > 0) offer(at - 1);
    if (at + 1 < line.size()) offer(at + 1);
    return best;
}

std::optional<Fold> fold_all(const std::vector<LineNote>& line, const music::NoteSet& have) {
    Fold fold;
    std::vector<int> played;
    for (const LineNote& note : line) {
        int midi = note.midi;
        if (!have.has(midi)) {
            const auto other = folded(midi, have);
            if (!other) return std::nullopt;
            ++fold.notes;
            (*other > midi ? fold.up : fold.down) = true;
            midi = *other;
        }
        played.push_back(midi);
    }
    std::optional<std::size_t> before;
    for (std::size_t at = 0; at < line.size(); ++at) {
        if (line[at].is_beneath) continue;
        if (before) {
            const bool is_folded = played[at] != line[at].midi || played[*before] != line[*before].midi;
            const int leap = std::abs(played[at] - played[*before]);
            if (is_folded && leap > fold.largest_leap) {
                fold.largest_leap = leap;
                fold.leap_before = std::abs(line[at].midi - line[*before].midi);
                fold.leap_bar = line[at].bar;
            }
        }
        before = at;
    }
    return fold;
}

void judge(Lack& lack, const std::vector<LineNote>& line, std::size_t last_at, const music::NoteSet& have) {
    if (lack.strong > 0 || lack.held > 0) return;
    lack.neighbour = neighbour_of(line, last_at, have);
    if (lack.neighbour) lack.stand_in = lack.count == 1 ? StandIn::yes : StandIn::perhaps;
}

}  // namespace

NearMiss find_near_miss(const std::vector<LineNote>& line, const music::NoteSet& have) {
    NearMiss found;
    std::map<int, Lack> lacks;
    std::map<int, std::size_t> last_at;
    for (std::size_t at = 0; at < line.size(); ++at) {
        const LineNote& note = line[at];
        ++found.notes;
        if (have.has(note.midi)) continue;
        ++found.missing;
        const auto [entry, is_new] = lacks.try_emplace(note.midi);
        Lack& lack = entry->second;
        lack.midi = note.midi;
        lack.is_beneath = note.is_beneath && (is_new || lack.is_beneath);
        ++lack.count;
        lack.strong += note.is_strong ? 1 : 0;
        lack.held += note.length < kLongNote ? 0 : 1;
        if (lack.bars.empty() || lack.bars.back() != note.bar) lack.bars.push_back(note.bar);
        last_at[note.midi] = at;
    }
    for (auto& [midi, lack] : lacks) {
        if (!lack.is_beneath) judge(lack, line, last_at[midi], have);
        found.lacks.push_back(std::move(lack));
    }
    if (found.missing > 0 && !have.empty()) found.fold = fold_all(line, have);
    return found;
}

bool fits_folded(const music::NoteSet& needed, const music::NoteSet& have) {
    if (have.empty()) return needed.empty();
    for (const int midi : needed.without(have).midi_numbers())
        if (!folded(midi, have)) return false;
    return true;
}

}  // namespace hands
