#include "repertoire/learning_load.h"

#include <algorithm>
#include <cstdlib>
#include <map>

#include "repertoire/pace.h"
#include "tune/title.h"

namespace repertoire {

namespace {

constexpr std::array<std::string_view, kLoadParts> kNames{"notes", "strikes", "bars", "range",
                                                          "leaps", "hand",    "pace", "rhythm"};

// By the notes of a whole bar, pick-ups left out.
std::optional<int> pace_in_tenths(const tune::TuneRecord& record, const tune::Outline& outline) {
    const auto rhythm = tune::danced_rhythm(record);
    const auto pace = pace_of(rhythm ? rhythm->value : "");
    int bars = 0, notes = 0;
    for (std::size_t bar = 0; bar < outline.bars.size(); ++bar) {
        const auto in_bar = static_cast<int>(outline.end_of(bar) - outline.bars[bar].first_note);
        if (outline.bars[bar].is_pickup || in_bar == 0) continue;
        ++bars;
        notes += in_bar;
    }
    if (!pace || bars == 0) return std::nullopt;
    const int beats = beats_in_bar(*pace, record.meter) * bars * 60;
    return (10 * notes * pace->beats_a_minute(PaceKind::easy) + beats / 2) / beats;
}

}  // namespace

std::string_view to_string(LoadPart part) { return kNames[static_cast<std::size_t>(part)]; }

std::optional<LoadPart> parse_load_part(std::string_view token) {
    const auto* const found = std::find(kNames.begin(), kNames.end(), token);
    if (found == kNames.end()) return std::nullopt;
    return static_cast<LoadPart>(found - kNames.begin());
}

TuneMatter matter_of(const tune::TuneRecord& record, const tune::Outline& outline) {
    TuneMatter matter;
    matter.id = record.id;
    matter.setting = record.setting;
    if (!record.titles.empty()) matter.folded_title = tune::fold_title(record.titles.front());
    if (const auto rhythm = tune::danced_rhythm(record)) matter.rhythm = rhythm->value;
    matter.needed = record.needed;
    matter.figures = figures_of(outline);
    std::map<int, int> struck;
    for (const tune::OutlineNote& note : outline.notes) ++struck[note.midi];
    matter.struck.assign(struck.begin(), struck.end());
    if (!struck.empty()) matter.range = struck.rbegin()->first - struck.begin()->first;
    for (std::size_t at = 1; at < outline.notes.size(); ++at)
        matter.leaps += std::abs(outline.notes[at].midi - outline.notes[at - 1].midi) >= kLeap ? 1 : 0;
    matter.pace = pace_in_tenths(record, outline);
    matter.asked = static_cast<int>(std::min<std::int64_t>(record.count.value_or(0), kMostAsked));
    return matter;
}

int Load::tenths_of(LoadPart part) const {
    switch (part) {
        case LoadPart::notes:
            return 10 * static_cast<int>(fresh.size());
        case LoadPart::strikes:
            return 10 * strikes;
        case LoadPart::bars:
            return 10 * bars_to_learn;
        case LoadPart::range:
            return 10 * beyond;
        case LoadPart::leaps:
            return 10 * leaps;
        case LoadPart::hand:
            return hand.value_or(0);
        case LoadPart::pace:
            return pace.value_or(0);
        case LoadPart::rhythm:
            return 10 * same_rhythm;
    }
    return 0;
}

Load load_of(const TuneMatter& tune, const Learner& learner) {
    Load load;
    load.fresh = tune.needed.without(learner.have);
    for (const auto& [midi, times] : tune.struck)
        if (load.fresh.has(midi)) load.strikes += times;
    load.different_bars = static_cast<int>(tune.figures.size());
    load.bars_to_learn = load.different_bars - learner.bars.count_known(tune.figures);
    load.beyond = std::max(0, tune.range - learner.widest);
    load.leaps = tune.leaps;
    load.pace = tune.pace;
    for (const std::string& rhythm : learner.last_rhythms) {
        if (rhythm != tune.rhythm || rhythm.empty()) break;
        ++load.same_rhythm;
    }
    return load;
}

int weigh(const Load& load, const LoadWeights& weights) {
    int points = 0;
    for (std::size_t part = 0; part < kLoadParts; ++part)
        points += weights.of[part] * load.tenths_of(static_cast<LoadPart>(part));
    return points;
}

}  // namespace repertoire
