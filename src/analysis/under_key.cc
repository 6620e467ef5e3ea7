// Tested by under_key_test.cc.
#include "analysis/under_key.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>

namespace analysis {

namespace {

using music::KeyChange;
using music::Melody;

bool say_the_same(const KeyChange& a, const KeyChange& b) { return a.key == b.key && a.signature == b.signature; }

// For each sound the change it stands under.
std::vector<const KeyChange*> keys_of_sounds(const Melody& melody) {
    std::vector<const KeyChange*> keys(melody.sounds.size(), melody.keys.empty() ? nullptr : &melody.keys.front());
    std::size_t change = 0;
    for (std::size_t sound = 0; sound < keys.size(); ++sound) {
        while (change + 1 < melody.keys.size() && melody.keys[change + 1].before_sound <= sound) ++change;
        if (!melody.keys.empty()) keys[sound] = &melody.keys[change];
    }
    return keys;
}

}  // namespace

std::vector<KeyChange> keys_in_turn(const Melody& melody) {
    std::vector<KeyChange> turns;
    if (melody.keys.empty()) return turns;
    const std::vector<const KeyChange*> keys = keys_of_sounds(melody);
    for (std::size_t sound = 0; sound < keys.size(); ++sound) {
        if (melody.sounds[sound].kind != music::Sound::Kind::note) continue;
        if (sound > 0 && !turns.empty() && keys[sound] == keys[sound - 1]) continue;
        const bool is_met = std::any_of(turns.begin(), turns.end(),
                                        [&](const KeyChange& turn) { return say_the_same(turn, *keys[sound]); });
        if (!is_met) turns.push_back(*keys[sound]);
    }
    return turns;
}

Melody under_key(const Melody& melody, const KeyChange& key) {
    Melody under;
    under.keys = {key};
    under.keys.front().before_sound = 0;
    const std::vector<const KeyChange*> keys = keys_of_sounds(melody);
    const auto is_kept = [&](std::size_t sound) { return keys[sound] != nullptr && say_the_same(*keys[sound], key); };
    std::vector<std::uint32_t> kept_before(melody.sounds.size() + 1);  // sounds that stand before each
    std::vector<std::uint32_t> bars_before(melody.bars.size() + 1);    // and bars
    std::uint32_t sound = 0;
    for (std::size_t bar = 0; bar < melody.bars.size(); ++bar) {
        const std::size_t end = bar + 1 < melody.bars.size() ? melody.bars[bar + 1].first_sound : melody.sounds.size();
        const std::size_t first = under.sounds.size();
        for (; sound < end; ++sound) {
            kept_before[sound] = static_cast<std::uint32_t>(under.sounds.size());
            if (!is_kept(sound)) continue;
            music::Sound& one = under.sounds.emplace_back(melody.sounds[sound]);
            const auto heads = melody.heads.begin() + one.first_head;
            one.first_head = static_cast<std::uint32_t>(under.heads.size());
            one.bar = static_cast<std::uint32_t>(under.bars.size());
            under.heads.insert(under.heads.end(), heads, heads + one.head_count);
        }
        bars_before[bar] = static_cast<std::uint32_t>(under.bars.size());
        if (under.sounds.size() > first) {
            under.bars.push_back(melody.bars[bar]);
            under.bars.back().first_sound = static_cast<std::uint32_t>(first);
        } else if (!under.bars.empty()) {
            under.bars.back().thick_after = true;
        }
    }
    kept_before.back() = static_cast<std::uint32_t>(under.sounds.size());
    bars_before.back() = static_cast<std::uint32_t>(under.bars.size());
    for (music::OrderMark mark : melody.order) {
        mark.before_sound = kept_before[mark.before_sound];
        mark.bar = bars_before[std::min<std::size_t>(mark.bar, melody.bars.size())];
        under.order.push_back(mark);
    }
    return under;
}

}  // namespace analysis
