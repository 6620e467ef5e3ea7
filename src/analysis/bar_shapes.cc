#include "analysis/bar_shapes.h"

#include <xxhash.h>

#include <algorithm>
#include <vector>

#include "analysis/note_uses.h"

namespace analysis {

namespace {

void append_sound(std::vector<std::int64_t>& shape, const music::Melody& melody, const music::Sound& sound) {
    if (sound.kind == music::Sound::Kind::grace) return;
    for (std::uint32_t index = 0; index < sound.head_count; ++index) {
        const music::NoteHead& head = melody.heads[sound.first_head + index];
        shape.push_back(head.midi * 2 + (head.is_tied ? 1 : 0));
    }
    shape.push_back(-(sound.length.numerator() << 20) - sound.length.denominator());
}

std::uint64_t hash_of(const std::vector<std::int64_t>& shape) {
    return XXH3_64bits(shape.data(), shape.size() * sizeof(std::int64_t));
}

}  // namespace

BarCount count_bars(const music::Melody& melody) {
    BarCount count;
    std::vector<std::uint64_t> hashes;
    std::vector<std::int64_t> shape;
    std::size_t at = 0;
    for (std::size_t bar = 0; bar < melody.bars.size(); ++bar) {
        shape.clear();
        for (; at < melody.sounds.size() && melody.sounds[at].bar == bar; ++at)
            append_sound(shape, melody, melody.sounds[at]);
        if (shape.empty() || is_pickup(melody, bar)) continue;
        hashes.push_back(hash_of(shape));
    }
    const std::vector<int> numbers = number_bars(melody);
    if (!hashes.empty()) count.written = numbers.back() + static_cast<int>(melody.bars.back().unit_rests) - 1;
    std::sort(hashes.begin(), hashes.end());
    count.different = static_cast<int>(std::unique(hashes.begin(), hashes.end()) - hashes.begin());
    return count;
}

std::uint64_t hash_melody(const music::Melody& melody) {
    std::vector<std::int64_t> shape;
    shape.reserve(melody.sounds.size() * 2);
    for (const music::Sound& sound : melody.sounds) append_sound(shape, melody, sound);
    return hash_of(shape);
}

}  // namespace analysis
