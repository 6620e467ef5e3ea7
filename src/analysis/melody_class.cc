// The played bars are laid end to end, a short one filled up to the usual length, and the steps in pitch and time
// hashed. Tested by melody_class_test.cc.
#include "analysis/melody_class.h"

#include <xxhash.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <vector>

#include "analysis/play_order.h"

namespace analysis {

namespace {

struct Struck {
    std::uint64_t at = 0;  // ticks from the start of the tune
    int midi = 60;
};

std::vector<Struck> lay_out(const tune::Outline& outline) {
    const std::vector<std::uint32_t> bars = play_bars_once(outline);
    const std::uint32_t usual = usual_bar_length(outline, bars);
    std::vector<Struck> struck;
    std::uint64_t bar_line = 0;
    for (const std::uint32_t bar : bars) {
        for (std::size_t note = outline.bars[bar].first_note; note < outline.end_of(bar); ++note)
            struck.push_back({bar_line + outline.notes[note].at, outline.notes[note].midi});
        bar_line += std::max(usual, outline.bars[bar].length);
    }
    return struck;
}

// The time most notes take; the shorter of two as frequent.
std::uint64_t usual_step(const std::vector<Struck>& struck) {
    std::map<std::uint64_t, std::size_t> counts;
    for (std::size_t note = 1; note < struck.size(); ++note) ++counts[struck[note].at - struck[note - 1].at];
    const auto usual = std::max_element(counts.begin(), counts.end(), [](const auto& a, const auto& b) {
        return a.second != b.second ? a.second < b.second : a.first > b.first;
    });
    return std::max<std::uint64_t>(1, usual->first);
}

}  // namespace

std::optional<std::uint64_t> melody_class(const tune::Outline& outline) {
    const std::vector<Struck> struck = lay_out(outline);
    if (struck.size() < kFewestNotesOfClass) return std::nullopt;
    const std::uint64_t unit = usual_step(struck);
    std::vector<std::int64_t> steps;
    steps.reserve(struck.size() * 3);
    for (std::size_t note = 1; note < struck.size(); ++note) {
        const std::uint64_t time = struck[note].at - struck[note - 1].at;
        const std::uint64_t shared = std::gcd(time, unit);
        steps.push_back(struck[note].midi - struck[note - 1].midi);
        steps.push_back(static_cast<std::int64_t>(time / shared));
        steps.push_back(static_cast<std::int64_t>(unit / shared));
    }
    return XXH3_64bits(steps.data(), steps.size() * sizeof(std::int64_t));
}

}  // namespace analysis
