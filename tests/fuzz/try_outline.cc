#include <algorithm>
#include <cstdint>
#include <optional>

#include "analysis/contour.h"
#include "analysis/find_heard.h"
#include "analysis/kinship.h"
#include "analysis/melody_class.h"
#include "analysis/rank_heard.h"
#include "base/invariant.h"
#include "targets.h"
#include "tune/outline.h"

namespace fuzz {

namespace {

void check_outline(const tune::Outline& outline) {
    std::uint32_t first = 0;
    for (std::size_t at = 0; at < outline.bars.size(); ++at) {
        const tune::OutlineBar& bar = outline.bars[at];
        INVARIANT(bar.first_note >= first && bar.first_note <= outline.notes.size());
        INVARIANT(bar.length <= tune::kMostTicks && bar.number >= 0);
        first = bar.first_note;
        std::uint32_t last = 0;
        for (std::size_t note = bar.first_note; note < outline.end_of(at); ++note) {
            INVARIANT(outline.notes[note].at >= last && outline.notes[note].at <= tune::kMostTicks);
            INVARIANT(outline.notes[note].midi <= 127);
            last = outline.notes[note].at;
        }
    }
    INVARIANT(outline.bars.empty() ? outline.notes.empty() : outline.bars.front().first_note == 0);
}

std::optional<tune::Outline> a_tone_higher(tune::Outline outline) {
    for (tune::OutlineNote& note : outline.notes) {
        if (note.midi > 125) return std::nullopt;
        note.midi = static_cast<std::uint8_t>(note.midi + 2);
    }
    return outline;
}

}  // namespace

void try_outline(const std::string& bytes) {
    const std::optional<tune::Outline> outline = tune::decode_outline(bytes);
    if (!outline) return;
    check_outline(*outline);
    INVARIANT(tune::decode_outline(tune::encode_outline(*outline)) == outline);

    const analysis::Contour contour = analysis::contour_of(*outline);
    const double itself = analysis::compare(contour, contour);
    INVARIANT(itself >= 0 && itself <= 1);
    const auto number = analysis::melody_class(*outline);
    // Key does not count.
    if (const auto higher = a_tone_higher(*outline)) {
        INVARIANT(analysis::melody_class(*higher) == number);
        const analysis::Contour other = analysis::contour_of(*higher);
        const double one_way = analysis::compare(contour, other);
        INVARIANT(one_way >= 0 && one_way <= 1 && one_way == analysis::compare(other, contour));
    }

    for (const bool at_start : {false, true}) {
        analysis::HeardRanking ranking("G A B d e d", at_start);
        ranking.look_at(1, *outline);
        const auto found = ranking.rank([&](std::int64_t) { return outline; });
        INVARIANT(found.size() <= 1);
        const auto hit = analysis::find_heard(analysis::read_heard("G A B d e d"), *outline, at_start);
        INVARIANT(!hit || (hit->errors >= 0 && hit->semitones >= -5 && hit->semitones <= 6));
    }
}

}  // namespace fuzz
