#include "hands/line.h"

#include <algorithm>

#include "analysis/note_uses.h"

namespace hands {

using music::Sound;

namespace {

// The struck note that a tied head goes on from.
LineNote* tied_from(std::vector<LineNote>& line, int midi) {
    const auto found =
        std::find_if(line.rbegin(), line.rend(), [&](const LineNote& note) { return note.midi == midi; });
    return found != line.rend() ? &*found : nullptr;
}

// A dotted crotchet in compound time and in 3/8, else the unit of the meter. Source: common practice, no source.
music::Duration beat_of(const music::Meter& meter) {
    if (meter.is_free()) return {1, 4};
    if (meter.unit == 8 && (meter.is_compound() || meter.beats == 3)) return {3, 8};
    return {1, meter.unit};
}

// By what stands in the bar, else by its meter; a pick-up of less than a beat counts as one.
music::Duration beats_of(const music::Bar& bar) {
    const music::Duration one{1, 1};
    const music::Duration beat = beat_of(bar.meter);
    const auto length = bar.length            ? bar.length
                        : bar.meter.is_free() ? std::nullopt
                                              : std::optional(bar.meter.bar_length());
    const auto beats = length ? product(*length, {beat.denominator(), beat.numerator()}) : std::nullopt;
    return beats && one < *beats ? *beats : one;
}

}  // namespace

std::vector<LineNote> line_of(const music::Melody& melody) {
    std::vector<LineNote> line;
    const std::vector<int> numbers = analysis::number_bars(melody);
    music::Duration rest_before;
    for (std::size_t at = 0; at < melody.sounds.size(); ++at) {
        const Sound& sound = melody.sounds[at];
        if (sound.kind == Sound::Kind::rest) rest_before = sum(rest_before, sound.length).value_or(music::Duration());
        if (sound.kind != Sound::Kind::note) continue;
        const int top = analysis::top_note(melody, sound);
        const bool is_strong = analysis::stands_strong(melody, sound);
        bool is_struck = false;
        for (std::uint32_t head = sound.first_head; head < sound.first_head + sound.head_count; ++head) {
            const int midi = melody.heads[head].midi;
            if (melody.heads[head].is_tied) {
                if (LineNote* before = tied_from(line, midi))
                    before->length = sum(before->length, sound.length).value_or(music::Duration());
                continue;
            }
            line.push_back({midi, numbers[sound.bar], sound.bar, at, sound.length, is_strong, midi < top, rest_before,
                            beats_of(melody.bars[sound.bar])});
            is_struck = true;
        }
        if (is_struck) rest_before = {};
    }
    return line;
}

std::vector<LineNote> top_of(std::vector<LineNote> line) {
    std::erase_if(line, [](const LineNote& note) { return note.is_beneath; });
    return line;
}

}  // namespace hands
