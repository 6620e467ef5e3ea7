#include "alike/varied.h"

#include <algorithm>
#include <set>
#include <vector>

namespace alike {

namespace {

using tune::Outline;
using tune::OutlineBar;
using tune::OutlineNote;

struct BarOfNotes {
    OutlineBar bar;
    std::vector<OutlineNote> notes;
};

std::vector<BarOfNotes> apart(const Outline& outline) {
    std::vector<BarOfNotes> bars;
    for (std::size_t bar = 0; bar < outline.bars.size(); ++bar)
        bars.push_back({outline.bars[bar],
                        {outline.notes.begin() + outline.bars[bar].first_note,
                         outline.notes.begin() + static_cast<std::ptrdiff_t>(outline.end_of(bar))}});
    return bars;
}

Outline together(const std::vector<BarOfNotes>& bars) {
    Outline outline;
    for (const BarOfNotes& one : bars) {
        OutlineBar bar = one.bar;
        bar.first_note = static_cast<std::uint32_t>(outline.notes.size());
        outline.bars.push_back(bar);
        outline.notes.insert(outline.notes.end(), one.notes.begin(), one.notes.end());
    }
    return outline;
}

Outline in_other_mode(Outline outline) {
    if (outline.notes.empty()) return outline;
    const int home = outline.notes.back().midi;
    const auto above = [&](const OutlineNote& note) { return ((note.midi - home) % 12 + 12) % 12; };
    const auto count = [&](int degree) {
        return std::count_if(outline.notes.begin(), outline.notes.end(),
                             [&](const OutlineNote& note) { return above(note) == degree; });
    };
    const bool is_major = count(4) > count(3);
    for (OutlineNote& note : outline.notes) {
        const int degree = above(note);
        if (is_major && (degree == 4 || degree == 9 || degree == 11)) --note.midi;
        if (!is_major && (degree == 3 || degree == 8 || degree == 10)) ++note.midi;
    }
    return outline;
}

Outline with_parts_moved(const Outline& outline) {
    std::vector<BarOfNotes> bars = apart(outline);
    const auto second = std::find_if(bars.begin() + (bars.empty() ? 0 : 1), bars.end(), [&](const BarOfNotes& one) {
        return one.bar.begins_part && &one - bars.data() >= 3;  // not a pick-up and its bar
    });
    std::rotate(bars.begin(), second, bars.end());
    return together(bars);
}

Outline in_half_bars(const Outline& outline) {
    std::vector<BarOfNotes> halves;
    for (const BarOfNotes& whole : apart(outline)) {
        const std::uint32_t half = whole.bar.length / 2;
        if (whole.bar.is_pickup || half == 0) {
            halves.push_back(whole);
            continue;
        }
        BarOfNotes first{whole.bar, {}}, second{whole.bar, {}};
        first.bar.length = second.bar.length = half;
        first.bar.repeat_closes = false;
        second.bar.repeat_opens = second.bar.begins_part = false;
        second.bar.endings = 0;
        for (OutlineNote note : whole.notes) {
            BarOfNotes& to = note.at < half ? first : second;
            if (note.at >= half) note.at -= half;
            to.notes.push_back(note);
        }
        halves.push_back(std::move(first));
        halves.push_back(std::move(second));
    }
    return together(halves);
}

Outline with_other_endings(const Outline& outline, std::mt19937& random) {
    std::set<std::uint8_t> known;
    for (const OutlineNote& note : outline.notes) known.insert(note.midi);
    const std::vector<std::uint8_t> scale(known.begin(), known.end());
    Outline other = outline;
    std::size_t bars = 0;
    for (std::size_t bar = 0; bar < outline.bars.size(); ++bar) {
        if (outline.bars[bar].is_pickup || ++bars % 4 != 0) continue;
        for (std::size_t note = outline.bars[bar].first_note; note < outline.end_of(bar); ++note) {
            if (other.notes[note].at < outline.bars[bar].length / 2 || note == 0) continue;
            const auto before =
                std::lower_bound(scale.begin(), scale.end(), other.notes[note - 1].midi) - scale.begin();
            const auto at = before + static_cast<int>(random() % 5) - 2;
            other.notes[note].midi =
                scale[static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(at, 0, std::ssize(scale) - 1))];
        }
    }
    return other;
}

Outline with_ornaments(const Outline& outline, std::mt19937& random) {
    std::vector<BarOfNotes> bars = apart(outline);
    for (BarOfNotes& one : bars) {
        std::vector<OutlineNote> notes;
        for (std::size_t note = 0; note < one.notes.size(); ++note) {
            OutlineNote played = one.notes[note];
            if (random() % 12 == 0) played.midi = static_cast<std::uint8_t>(played.midi + (random() % 2 == 0 ? 2 : -2));
            notes.push_back(played);
            const std::uint32_t until = note + 1 < one.notes.size() ? one.notes[note + 1].at : one.bar.length;
            if (random() % 4 != 0 || until < played.at + 4) continue;
            notes.push_back({(played.at + until) / 2, static_cast<std::uint8_t>(played.midi + 2)});
        }
        one.notes = std::move(notes);
    }
    return together(bars);
}

}  // namespace

std::string_view name_of(Variation variation) {
    switch (variation) {
        case Variation::other_mode:
            return "another mode";
        case Variation::parts_moved:
            return "parts in another order";
        case Variation::bars_halved:
            return "two bars for one";
        case Variation::endings:
            return "endings varied";
        case Variation::ornaments:
            return "ornaments, a note in twelve off";
        case Variation::several:
            break;
    }
    return "mode, parts and endings";
}

tune::Outline varied(const tune::Outline& outline, Variation variation, std::mt19937& random) {
    switch (variation) {
        case Variation::other_mode:
            return in_other_mode(outline);
        case Variation::parts_moved:
            return with_parts_moved(outline);
        case Variation::bars_halved:
            return in_half_bars(outline);
        case Variation::endings:
            return with_other_endings(outline, random);
        case Variation::ornaments:
            return with_ornaments(outline, random);
        case Variation::several:
            break;
    }
    return with_other_endings(with_parts_moved(in_other_mode(outline)), random);
}

}  // namespace alike
