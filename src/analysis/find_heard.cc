// Bit-parallel approximate matching, as Wu and Manber, Communications of the ACM 35(10), 1992, pages 83-91. A phrase
// with k errors is cut into k + 1 pieces, of which one is left whole: their intervals are sought first, all pieces in
// one word and in all keys at once, and tell which keys are worth the search with errors. That one reads backwards, so
// that a match ends where it begins. Tested by find_heard_test.cc.
#include "analysis/find_heard.h"

#include <bit>
#include <cstdlib>
#include <tuple>
#include <vector>

#include "analysis/heard_notes.h"
#include "base/invariant.h"

namespace analysis {

namespace {

constexpr int kMostErrors = 4;

// Notes of one pitch class in a row.
struct Run {
    std::uint8_t pitch_class = 0;
    Begins begins = Begins::within;
    std::int32_t bar = 0;
};

std::vector<Run> runs_of(const tune::Outline& outline) {
    std::vector<Run> runs;
    runs.reserve(outline.notes.size());
    visit_heard_notes(outline, [&](std::size_t note, std::size_t bar, Begins begins) {
        const auto pitch_class = static_cast<std::uint8_t>(outline.notes[note].midi % 12);
        const std::int32_t number = outline.bars[bar].number;
        if (runs.empty() || runs.back().pitch_class != pitch_class) {
            runs.push_back({pitch_class, begins, number});
        } else if (begins < runs.back().begins) {
            runs.back().begins = begins;
            runs.back().bar = number;
        }
    });
    return runs;
}

}  // namespace

bool better(const Hit& a, const Hit& b) noexcept {
    const auto rank = [](const Hit& hit) {
        return std::tuple(hit.errors, hit.begins, hit.semitones != 0, hit.bar, std::abs(hit.semitones), -hit.semitones);
    };
    return rank(a) < rank(b);
}

int errors_allowed(std::size_t notes) noexcept {
    return notes < 6 ? 0 : notes < 7 ? 1 : notes < 12 ? 2 : notes < 16 ? 3 : kMostErrors;
}

HeardSearch::HeardSearch(const Heard& heard) : notes_(heard.pitch_classes.size()), errors_(errors_allowed(notes_)) {
    INVARIANT(notes_ >= kFewestHeard && notes_ <= kMostHeard);
    for (std::size_t note = 0; note < notes_; ++note)
        places_[heard.pitch_classes[note]] |= std::uint64_t{1} << (notes_ - 1 - note);
    const auto pieces = static_cast<std::size_t>(errors_) + 1;
    unsigned bit = 0;
    for (std::size_t piece = 0; piece < pieces; ++piece) {
        const std::size_t from = piece * notes_ / pieces, to = (piece + 1) * notes_ / pieces;
        piece_starts_ |= std::uint64_t{1} << bit;
        for (std::size_t note = from + 1; note < to; ++note, ++bit) {
            const auto step =
                static_cast<std::size_t>((heard.pitch_classes[note] + 12 - heard.pitch_classes[note - 1]) % 12);
            steps_[step] |= std::uint64_t{1} << bit;
        }
        piece_ends_ |= std::uint64_t{1} << (bit - 1);
        last_of_[bit - 1] = heard.pitch_classes[to - 1];
    }
}

std::optional<Hit> HeardSearch::find_in(const tune::Outline& outline, bool at_start) const {
    const std::vector<Run> runs = runs_of(outline);
    unsigned keys = 0;  // bit n: worth looking n semitones higher
    std::uint64_t found = 0;
    for (std::size_t at = 1; at < runs.size(); ++at) {
        found = ((found << 1) | piece_starts_) &
                steps_[static_cast<std::size_t>((runs[at].pitch_class + 12 - runs[at - 1].pitch_class) % 12)];
        for (std::uint64_t ends = found & piece_ends_; ends != 0; ends &= ends - 1)
            keys |=
                1U << ((runs[at].pitch_class + 12 - last_of_[static_cast<std::size_t>(std::countr_zero(ends))]) % 12);
    }
    std::optional<Hit> best;
    int allowed = errors_;  // no more than the best has: what has more cannot be better
    for (int key = 0; key < 12; ++key) {
        if ((keys >> key & 1U) == 0) continue;
        std::array<std::uint64_t, kMostErrors + 1> states{};  // bit n of state e: n + 1 notes matched with e errors
        for (int error = 1; error <= allowed; ++error)
            states[static_cast<std::size_t>(error)] = (std::uint64_t{1} << error) - 1;
        for (std::size_t at = runs.size(); at-- > 0;) {
            const Run& run = runs[at];
            const std::uint64_t places = places_[static_cast<std::size_t>((run.pitch_class + 12 - key) % 12)];
            std::uint64_t before = states[0];
            states[0] = ((states[0] << 1) | 1) & places;
            for (std::size_t error = 1; error <= static_cast<std::size_t>(allowed); ++error) {
                const std::uint64_t kept = states[error];
                states[error] = (((kept << 1) | 1) & places) | before | ((before | states[error - 1]) << 1) | 1;
                before = kept;
            }
            if (at_start && run.begins != Begins::tune) continue;
            for (int error = 0; error <= allowed; ++error) {
                if ((states[static_cast<std::size_t>(error)] >> (notes_ - 1) & 1U) == 0) continue;
                const Hit hit{error, run.begins, key > 6 ? key - 12 : key, run.bar};
                if (!best || better(hit, *best)) best = hit;
                allowed = error;
                break;
            }
        }
    }
    return best;
}

std::optional<Hit> find_heard(const Heard& heard, const tune::Outline& outline, bool at_start) {
    return HeardSearch(heard).find_in(outline, at_start);
}

}  // namespace analysis
