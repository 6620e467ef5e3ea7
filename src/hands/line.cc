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

}  // namespace

std::vector<LineNote> line_of(const music::Melody& melody) {
    std::vector<LineNote> line;
    const std::vector<int> numbers = analysis::number_bars(melody);
    bool rests_before = false;
    for (std::size_t at = 0; at < melody.sounds.size(); ++at) {
        const Sound& sound = melody.sounds[at];
        if (sound.kind == Sound::Kind::rest) rests_before = true;
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
            line.push_back(
                {midi, numbers[sound.bar], sound.bar, at, sound.length, is_strong, midi < top, rests_before});
            is_struck = true;
        }
        if (is_struck) rests_before = false;
    }
    return line;
}

std::vector<LineNote> top_of(std::vector<LineNote> line) {
    std::erase_if(line, [](const LineNote& note) { return note.is_beneath; });
    return line;
}

}  // namespace hands
