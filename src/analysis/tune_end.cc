// Tested by tune_end_test.cc; which rules help is measured by tests/keys.
#include "analysis/tune_end.h"

#include <algorithm>
#include <optional>

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

const OrderMark* first_of(const Melody& melody, OrderMark::Kind kind) {
    const auto found = std::find_if(melody.order.begin(), melody.order.end(),
                                    [&](const OrderMark& mark) { return mark.kind == kind; });
    return found == melody.order.end() ? nullptr : &*found;
}

bool has_note(const Melody& melody, std::size_t from, std::size_t to) {
    return std::any_of(melody.sounds.begin() + static_cast<std::ptrdiff_t>(from),
                       melody.sounds.begin() + static_cast<std::ptrdiff_t>(to),
                       [](const Sound& sound) { return sound.kind == Sound::Kind::note; });
}

// A second sign behind the last note, as old engravers write it with or without D.S. (common practice, no source; seen
// in Ryan's Mammoth Collection and O'Neill's).
bool repeats_sign(const Melody& melody) {
    const OrderMark* const first = first_of(melody, OrderMark::Kind::segno);
    const OrderMark* const last = last_of(melody, OrderMark::Kind::segno);
    return first != last && !has_note(melody, last->before_sound, melody.sounds.size());
}

// Where the tune begins again: at `sign`, which at the end of a bar stands for the next one; without it at the start.
std::size_t bar_of_return(const Melody& melody, const OrderMark* sign) {
    if (sign == nullptr) return 0;
    std::size_t bar = sign->bar;
    while (bar < melody.bars.size() && sign->before_sound >= end_of_bar(melody, bar)) ++bar;
    return bar;
}

// Where the notes of a full bar begin that lead back to the beginning of a tune with a pick-up: as long as that.
// Nothing where the bar leaves room for the pick-up, or a note sounds across that place.
std::optional<std::size_t> lead_back_of(const Melody& melody, std::size_t bar) {
    if (bar == 0 || !is_pickup(melody, 0)) return std::nullopt;
    const music::Bar& last = melody.bars[bar];
    if (last.meter.is_free() || !last.length || *last.length != last.meter.bar_length()) return std::nullopt;
    for (std::size_t sound = last.first_sound + 1; sound < end_of_bar(melody, bar); ++sound) {
        const auto whole =
            melody.sounds[sound].at ? sum(*melody.sounds[sound].at, *melody.bars.front().length) : std::nullopt;
        if (whole && *whole == *last.length && melody.sounds[sound].kind != Sound::Kind::grace) return sound;
    }
    return std::nullopt;
}

// A fermata over the end of a part says Fine. Source: common practice of old engravers, no source.
std::optional<std::size_t> fermata_over_end(const Melody& melody) {
    for (auto mark = melody.order.rbegin(); mark != melody.order.rend(); ++mark)
        if (mark->kind == OrderMark::Kind::fermata && closes_bar(melody, *mark) && closes_part(melody.bars[mark->bar]))
            return end_at(melody, *mark);
    return std::nullopt;
}

// Where a tune ends that goes back to bar `from`: at such a fermata; without one the part it goes back to is played
// again and ends the tune.
std::size_t end_after_return(const Melody& melody, std::size_t from) {
    if (const auto fermata = fermata_over_end(melody)) return *fermata;
    for (std::size_t bar = from; bar < melody.bars.size(); ++bar)
        if (closes_part(melody.bars[bar]) && !is_pickup(melody, bar))
            // The sign stands behind the pick-up, so the part leads back to it in its own last bar.
            return from > 0 ? lead_back_of(melody, bar).value_or(end_of_bar(melody, bar)) : end_of_bar(melody, bar);
    return melody.sounds.size();
}

// Where a tune ends that is repeated from a sign to a sign: at a fermata as above; else with its last bar, without what
// leads back in it.
std::size_t end_before_sign(const Melody& melody) {
    if (const auto fermata = fermata_over_end(melody)) return *fermata;
    return lead_back_of(melody, melody.sounds.back().bar).value_or(melody.sounds.size());
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
    if (melody.sounds.empty()) return 0;
    const auto lead_back = lead_back_of(melody, melody.sounds.back().bar);
    return lead_back && is_pickup_again(melody, *lead_back) ? *lead_back : melody.sounds.size();
}

}  // namespace

std::size_t find_tune_end(const Melody& melody) {
    std::size_t end = melody.sounds.size();
    const OrderMark* const sign = first_of(melody, OrderMark::Kind::segno);
    if (const OrderMark* fine = last_of(melody, OrderMark::Kind::fine))
        end = end_at(melody, *fine);
    else if (const OrderMark* coda = last_of(melody, OrderMark::Kind::al_coda);
             coda != nullptr && has_note(melody, coda->before_sound, melody.sounds.size()))
        end = melody.sounds.size();
    else if (last_of(melody, OrderMark::Kind::dal_segno) != nullptr)
        end = end_after_return(melody, bar_of_return(melody, sign));
    else if (last_of(melody, OrderMark::Kind::da_capo) != nullptr)
        end = end_after_return(melody, 0);
    else if (repeats_sign(melody))
        end = end_before_sign(melody);
    else
        end = without_lead_back(melody);
    return end > 0 && has_note(melody, 0, end) ? end : melody.sounds.size();
}

}  // namespace analysis
