#include "analysis/leaps.h"

#include <algorithm>
#include <array>
#include <cstdlib>

#include "analysis/note_uses.h"

namespace analysis {

namespace {

using music::Duration;
using music::Sound;

const music::NoteHead& top_head(const music::Melody& melody, const Sound& sound) {
    const music::NoteHead* top = &melody.heads[sound.first_head];
    for (std::uint32_t head = 1; head < sound.head_count; ++head)
        if (melody.heads[sound.first_head + head].midi > top->midi) top = &melody.heads[sound.first_head + head];
    return *top;
}

Duration counted_beat(const music::Meter& meter) {
    if (meter.is_compound()) return {3, 8};
    if (meter.bar_length() == Duration(1, 1)) return {1, 2};
    return {1, meter.unit};
}

std::optional<Duration> minus(const Duration& a, const Duration& b) {
    return sum(a, Duration(-b.numerator(), b.denominator()));
}

// From the bar line; the notes of a pick-up stand at the end of their bar.
std::optional<Duration> place_in_bar(const music::Melody& melody, const Sound& sound) {
    const music::Bar& bar = melody.bars[sound.bar];
    if (!sound.at || !is_pickup(melody, sound.bar) || !bar.ending.empty()) return sound.at;
    const auto missing = minus(bar.meter.bar_length(), *bar.length);
    return missing ? sum(*missing, *sound.at) : std::nullopt;
}

std::optional<Duration> beat_of(const music::Meter& meter, const std::optional<Duration>& at) {
    if (meter.is_free() || !at) return std::nullopt;
    const Duration beat = counted_beat(meter);
    const auto beats = product(*at, Duration(beat.denominator(), beat.numerator()));
    return beats ? sum(*beats, Duration(1, 1)) : std::nullopt;
}

}  // namespace

tune::Leaps find_leaps(const music::Melody& melody, std::span<const int> numbers) {
    tune::Leaps found;
    std::optional<int> before;
    std::optional<int> before_endings;  // the note the first ending follows, and so every other one
    int widest = 0;
    std::uint32_t bar = 0;
    bool in_endings = false;
    for (const Sound& sound : melody.sounds) {
        for (; bar < sound.bar; ++bar) {
            const music::Bar& next = melody.bars[bar + 1];
            const bool part_ends = melody.bars[bar].repeat_closes || melody.bars[bar].thick_after || next.repeat_opens;
            if (next.ending.empty()) {
                if (part_ends) in_endings = false;
            } else if (in_endings) {
                before = before_endings;
            } else {
                before_endings = before;
                in_endings = true;
            }
        }
        if (sound.kind == Sound::Kind::grace) continue;
        if (sound.kind == Sound::Kind::rest) {
            before.reset();
            continue;
        }
        const music::NoteHead& top = top_head(melody, sound);
        if (before && !top.is_tied) {
            const int size = std::abs(top.midi - *before);
            ++(size == 0 ? found.repeats : size <= 2 ? found.steps : size <= 4 ? found.skips : found.leaps);
            if (size > widest) {
                widest = size;
                found.largest = {*before, top.midi, numbers[sound.bar]};
            }
        }
        before = top.midi;
    }
    return found;
}

std::vector<tune::LoneNote> find_lone_notes(const music::Melody& melody, std::span<const int> numbers) {
    std::array<std::uint32_t, music::kMidiNotes> count{};
    std::array<std::uint32_t, music::kMidiNotes> sound_of{};
    for (std::uint32_t index = 0; index < melody.sounds.size(); ++index) {
        const Sound& sound = melody.sounds[index];
        if (sound.kind != Sound::Kind::note) continue;
        for (std::uint32_t head = 0; head < sound.head_count; ++head) {
            const music::NoteHead& note = melody.heads[sound.first_head + head];
            if (note.is_tied) continue;
            const auto midi = static_cast<std::size_t>(note.midi);
            ++count[midi];
            sound_of[midi] = index;
        }
    }
    std::vector<tune::LoneNote> lone;
    for (std::size_t midi = 0; midi < count.size(); ++midi) {
        if (count[midi] != 1) continue;
        const Sound& sound = melody.sounds[sound_of[midi]];
        const music::Meter& meter = melody.bars[sound.bar].meter;
        const auto at = place_in_bar(melody, sound);
        lone.push_back({static_cast<int>(midi), numbers[sound.bar], beat_of(meter, at), at && is_strong(meter, *at)});
    }
    return lone;
}

}  // namespace analysis
