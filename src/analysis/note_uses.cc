#include "analysis/note_uses.h"

#include <algorithm>
#include <array>

#include "analysis/tune_end.h"

namespace analysis {

using music::Duration;
using music::Sound;

int top_note(const music::Melody& melody, const Sound& sound) {
    int top = 0;
    for (std::uint32_t head = 0; head < sound.head_count; ++head)
        top = std::max(top, static_cast<int>(melody.heads[sound.first_head + head].midi));
    return top;
}

bool stands_strong(const music::Melody& melody, const Sound& sound) {
    if (!sound.at) return false;
    const music::Bar& bar = melody.bars[sound.bar];
    if (!is_pickup(melody, sound.bar)) return is_strong(bar.meter, *sound.at);
    const auto missing = sum(bar.meter.bar_length(), Duration(-bar.length->numerator(), bar.length->denominator()));
    const auto at = missing ? sum(*missing, *sound.at) : std::nullopt;
    return at && is_strong(bar.meter, *at);
}

bool is_pickup(const music::Melody& melody, std::size_t index) {
    const music::Bar& bar = melody.bars[index];
    if (bar.meter.is_free() || !bar.length || !(*bar.length < bar.meter.bar_length())) return false;
    if (melody.bars.size() == 1) return false;  // it leads out of nothing
    if (!bar.ending.empty()) return false;      // a short ending leads back to a pick-up; it is none
    if (index == 0 || bar.repeat_opens) return true;
    const music::Bar& before = melody.bars[index - 1];
    return before.repeat_closes || before.thick_after;
}

std::vector<int> number_bars(const music::Melody& melody) {
    std::vector<int> numbers;
    int number = 0;
    int next = 1;
    for (std::size_t bar = 0; bar < melody.bars.size(); ++bar) {
        if (!is_pickup(melody, bar)) {
            number = next;
            next += static_cast<int>(melody.bars[bar].unit_rests);
        }
        numbers.push_back(number);
    }
    return numbers;
}

NoteUses find_note_uses(const music::Melody& melody) {
    NoteUses found;
    std::array<std::int16_t, music::kMidiNotes> place;
    place.fill(-1);
    std::uint32_t bar_seen = 0xFFFFFFFF;
    int bar = 0;
    const std::vector<int> numbers = number_bars(melody);
    const std::size_t end = find_tune_end(melody);
    for (std::size_t at_sound = 0; at_sound < melody.sounds.size(); ++at_sound) {
        const Sound& sound = melody.sounds[at_sound];
        if (sound.bar != bar_seen) {
            bar_seen = sound.bar;
            bar = numbers[bar_seen];
        }
        if (sound.kind == Sound::Kind::rest) continue;
        if (sound.kind == Sound::Kind::grace) {
            for (std::uint32_t head = 0; head < sound.head_count; ++head)
                found.ornaments.add(melody.heads[sound.first_head + head].midi);
            continue;
        }
        const int top = top_note(melody, sound);
        if (!found.first_note) found.first_note = top;
        if (at_sound < end) found.last_note = top;
        const bool strong = stands_strong(melody, sound);
        for (std::uint32_t index = 0; index < sound.head_count; ++index) {
            const music::NoteHead& head = melody.heads[sound.first_head + index];
            found.needed.add(head.midi);
            auto& at = place[static_cast<std::size_t>(head.midi)];
            if (at < 0) {
                at = static_cast<std::int16_t>(found.uses.size());
                found.uses.emplace_back().midi = head.midi;
            }
            tune::NoteUse& use = found.uses[static_cast<std::size_t>(at)];
            if (use.bars.empty() || use.bars.back() != bar) use.bars.push_back(bar);
            if (head.is_tied) continue;
            ++found.note_count;
            ++use.count;
            if (strong) ++use.strong;
        }
    }
    std::sort(found.uses.begin(), found.uses.end(), [](const auto& a, const auto& b) { return a.midi < b.midi; });
    return found;
}

}  // namespace analysis
