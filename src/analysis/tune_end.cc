// Tested by tune_end_test.cc; which rules help is measured by tests/keys.
#include "analysis/tune_end.h"

#include <algorithm>

#include "analysis/note_uses.h"

namespace analysis {

namespace {

using music::Melody;
using music::OrderMark;
using music::Sound;

std::size_t end_of_bar(const Melody& melody, std::size_t bar) {
    return bar + 1 < melody.bars.size() ? melody.bars[bar + 1].first_sound : melody.sounds.size();
}

// A mark stands on the note behind it; at the end of its bar, on the one before.
std::size_t end_at(const Melody& melody, const OrderMark& mark) {
    std::size_t sound = mark.before_sound;
    for (; sound < melody.sounds.size() && melody.sounds[sound].bar == mark.bar; ++sound)
        if (melody.sounds[sound].kind == Sound::Kind::note) return sound + 1;
    return mark.before_sound;
}

bool closes_bar(const Melody& melody, const OrderMark& mark) {
    return mark.bar < melody.bars.size() && end_at(melody, mark) == end_of_bar(melody, mark.bar);
}

bool closes_part(const music::Bar& bar) { return bar.repeat_closes || bar.thick_after; }

const OrderMark* last_of(const Melody& melody, OrderMark::Kind kind) {
    const auto found = std::find_if(melody.order.rbegin(), melody.order.rend(),
                                    [&](const OrderMark& mark) { return mark.kind == kind; });
    return found == melody.order.rend() ? nullptr : &*found;
}

// To where D.C. leads: a fermata over the end of a part says Fine (common practice of old engravers, no source);
// without one the first part is played again and ends the tune.
std::size_t end_after_da_capo(const Melody& melody) {
    for (auto mark = melody.order.rbegin(); mark != melody.order.rend(); ++mark)
        if (mark->kind == OrderMark::Kind::fermata && closes_bar(melody, *mark) && closes_part(melody.bars[mark->bar]))
            return end_at(melody, *mark);
    for (std::size_t bar = 0; bar < melody.bars.size(); ++bar)
        if (closes_part(melody.bars[bar])) return end_of_bar(melody, bar);
    return melody.sounds.size();
}

// The notes from `from` on that are the pick-up again, to the last sound.
bool is_pickup_again(const Melody& melody, std::size_t from) {
    std::size_t first = 0;
    for (std::size_t sound = from; sound < melody.sounds.size(); ++sound) {
        if (melody.sounds[sound].kind == Sound::Kind::grace) continue;
        while (first < melody.sounds.size() && melody.sounds[first].kind == Sound::Kind::grace) ++first;
        if (first >= melody.sounds.size() || melody.sounds[first].bar != 0) return false;
        const Sound& one = melody.sounds[first++];
        const Sound& other = melody.sounds[sound];
        if (one.kind != other.kind || one.length != other.length) return false;
        if (one.kind == Sound::Kind::note && top_note(melody, one) != top_note(melody, other)) return false;
    }
    return true;
}

std::size_t without_lead_back(const Melody& melody) {
    const std::size_t all = melody.sounds.size();
    if (all == 0 || !is_pickup(melody, 0)) return all;
    const std::size_t bar = melody.sounds.back().bar;
    const music::Bar& last = melody.bars[bar];
    if (last.meter.is_free() || bar == 0 || !last.length || *last.length != last.meter.bar_length()) return all;
    for (std::size_t sound = last.first_sound + 1; sound < all; ++sound) {
        const auto whole =
            melody.sounds[sound].at ? sum(*melody.sounds[sound].at, *melody.bars.front().length) : std::nullopt;
        if (whole && *whole == *last.length && melody.sounds[sound].kind != Sound::Kind::grace)
            return is_pickup_again(melody, sound) ? sound : all;
    }
    return all;
}

}  // namespace

std::size_t find_tune_end(const Melody& melody) {
    std::size_t end = melody.sounds.size();
    if (const OrderMark* fine = last_of(melody, OrderMark::Kind::fine))
        end = end_at(melody, *fine);
    else if (last_of(melody, OrderMark::Kind::da_capo) != nullptr)
        end = end_after_da_capo(melody);
    else
        end = without_lead_back(melody);
    const auto sounds = melody.sounds.begin();
    const bool has_note = std::any_of(sounds, sounds + static_cast<std::ptrdiff_t>(end),
                                      [](const Sound& sound) { return sound.kind == Sound::Kind::note; });
    return has_note ? end : melody.sounds.size();
}

}  // namespace analysis
