// Tested by outline_of_test.cc.
#include "analysis/outline_of.h"

#include <algorithm>
#include <string_view>

#include "analysis/note_uses.h"
#include "analysis/tune_end.h"

namespace analysis {

namespace {

std::uint32_t ticks_of(const music::Duration& duration) {
    if (duration.numerator() <= 0) return 0;
    const std::int64_t scaled = duration.numerator() * std::int64_t{tune::kTicksPerWhole};
    const std::int64_t ticks = (scaled + duration.denominator() / 2) / duration.denominator();
    return static_cast<std::uint32_t>(std::min<std::int64_t>(ticks, tune::kMostTicks));
}

std::uint32_t later(std::uint32_t ticks, std::uint32_t by) {
    return std::min(tune::kMostTicks, ticks + by);
}  // both below 2^31

// `1`, `1,3`, `1-3` as bits. Times after the sixteenth have no bit: nobody plays them.
std::uint16_t ending_bits(std::string_view list) {
    constexpr unsigned kTimes = 16;
    unsigned bits = 0, time = 0, from = 0;
    const auto close = [&](unsigned to) {
        for (unsigned bit = from == 0 ? to : from; bit >= 1 && bit <= std::min(to, kTimes); ++bit)
            bits |= 1U << (bit - 1);
        from = 0;
    };
    for (const char c : list) {
        if (c >= '0' && c <= '9') {
            time = std::min(time * 10 + static_cast<unsigned>(c - '0'), kTimes + 1);
            continue;
        }
        if (c == '-')
            from = time;
        else
            close(time);
        time = 0;
    }
    close(time);
    return static_cast<std::uint16_t>(bits);
}

// The top head where the sound is struck; nothing for rests, grace notes and tied continuations.
const music::NoteHead* struck_top(const music::Melody& melody, const music::Sound& sound) {
    if (sound.kind != music::Sound::Kind::note || sound.head_count == 0) return nullptr;
    const auto first = melody.heads.begin() + sound.first_head;
    const auto top =
        std::max_element(first, first + sound.head_count, [](const auto& a, const auto& b) { return a.midi < b.midi; });
    return top->is_tied ? nullptr : &*top;
}

}  // namespace

tune::Outline outline_of(const music::Melody& melody) {
    tune::Outline outline;
    const std::vector<int> numbers = number_bars(melody);
    const std::size_t end = find_tune_end(melody);
    std::size_t sound = 0, part = 0, notes_to_end = 0;
    for (std::size_t index = 0; index < melody.bars.size(); ++index) {
        const music::Bar& written = melody.bars[index];
        const music::Bar* before = index > 0 ? &melody.bars[index - 1] : nullptr;
        tune::OutlineBar bar;
        bar.first_note = static_cast<std::uint32_t>(outline.notes.size());
        bar.number = numbers[index];
        bar.endings = ending_bits(written.ending);
        bar.is_pickup = bar.endings == 0 && is_pickup(melody, index);  // a short second ending leads into nothing
        bar.repeat_opens = written.repeat_opens;
        bar.repeat_closes = written.repeat_closes;
        const bool follows_end =
            before == nullptr || ((before->repeat_closes || before->thick_after) && bar.endings == 0);
        bar.begins_part = follows_end || written.repeat_opens;
        for (; part < melody.parts.size() && melody.parts[part].before_sound <= sound; ++part)
            bar.begins_part = bar.begins_part || melody.parts[part].before_sound == sound;
        std::uint32_t now = 0, last = 0;
        for (; sound < melody.sounds.size() && melody.sounds[sound].bar == index; ++sound) {
            const music::Sound& heard = melody.sounds[sound];
            if (heard.at) now = ticks_of(*heard.at);  // rounded once, not once for each note before
            if (const music::NoteHead* top = struck_top(melody, heard)) {
                last = std::max(last, now);
                outline.notes.push_back({last, static_cast<std::uint8_t>(std::clamp<int>(top->midi, 0, 127))});
                if (sound < end) notes_to_end = outline.notes.size();
            }
            if (heard.kind != music::Sound::Kind::grace) now = later(now, ticks_of(heard.length));
        }
        bar.length = written.length ? ticks_of(*written.length) : now;
        outline.bars.push_back(bar);
    }
    if (notes_to_end > 0 && notes_to_end < outline.notes.size()) outline.end = static_cast<std::uint32_t>(notes_to_end);
    return outline;
}

}  // namespace analysis
