// Tested by player_twins_test.cc.
#include "answers/player_twins.h"

#include <algorithm>
#include <iterator>

#include "tune/outline.h"
#include "tune/title.h"

namespace answers {

PlayerTwins::PlayerTwins(const collection::Collection& collection, const collection::PlayerRecord& player)
    : collection_(collection) {
    std::set<tune::TuneId> has, met;
    for (const tune::PlayerTune& tune : player.tunes)
        if (tune::state_of(tune)) has.insert(tune.tune);
    for (const tune::TuneRecord& record : collection.tunes_by_id(std::vector<tune::TuneId>(has.begin(), has.end()))) {
        const auto rhythm = tune::danced_rhythm(record);
        for (const std::string& title : record.titles)
            named_.emplace(Named{tune::fold_title(title), rhythm ? rhythm->value : ""}, record.id);
    }
    std::map<tune::TuneId, tune::TuneId> tune_of;  // by own id
    collection.visit_outlines([&](const collection::StoredOutline& stored) {
        tune_of[stored.own] = stored.tune;
        if (!has.contains(stored.tune)) return;
        met.insert(stored.tune);
        if (const auto outline = tune::decode_outline(stored.bytes))
            melodies_.push_back({stored.tune, analysis::contour_of(*outline)});
    });
    std::vector<tune::TuneId> gone;
    std::set_difference(has.begin(), has.end(), met.begin(), met.end(), std::back_inserter(gone));
    for (const tune::TuneRecord& record : collection.tunes_by_id(gone)) {
        tune_of[record.own] = record.id;
        if (const auto outline = collection.outline_of(record.setting))
            melodies_.push_back({record.id, analysis::contour_of(*outline)});
    }
    for (const collection::Verdict& verdict : collection.verdicts()) {
        const auto one = tune_of.find(verdict.one), other = tune_of.find(verdict.other);
        if (one != tune_of.end() && other != tune_of.end()) spoken_.insert(std::minmax(one->second, other->second));
    }
}

const analysis::Contour& PlayerTwins::contour_of(tune::SettingId setting) {
    const auto [at, is_new] = asked_.try_emplace(setting);
    if (is_new)
        if (const auto outline = collection_.outline_of(setting)) at->second = analysis::contour_of(*outline);
    return at->second;
}

bool PlayerTwins::is_spoken_of(tune::TuneId one, tune::TuneId other) const {
    return spoken_.contains(std::minmax(one, other));
}

std::optional<tune::TuneId> PlayerTwins::twin_of(const repertoire::TuneMatter& tune,
                                                 std::span<const repertoire::TuneMatter* const> offered) {
    std::optional<tune::TuneId> twin;
    double best = 0;
    const analysis::Contour& contour = contour_of(tune.setting);
    const auto try_out = [&](tune::TuneId id, const analysis::Contour& other) {
        if (id == tune.id || is_spoken_of(id, tune.id)) return;
        const double likeness = analysis::compare(contour, other);
        if (likeness < analysis::kProbableKin || likeness <= best) return;
        best = likeness;
        twin = id;
    };
    for (const Melody& melody : melodies_) try_out(melody.tune, melody.contour);
    if (twin) return twin;
    for (const repertoire::TuneMatter* other : offered) try_out(other->id, contour_of(other->setting));
    if (twin || tune.folded_title.empty()) return twin;
    const auto same_name = named_.find(Named{tune.folded_title, tune.rhythm});
    if (same_name != named_.end() && same_name->second != tune.id && !is_spoken_of(same_name->second, tune.id))
        return same_name->second;
    for (const repertoire::TuneMatter* other : offered)
        if (other->folded_title == tune.folded_title && other->rhythm == tune.rhythm && other->id != tune.id &&
            !is_spoken_of(other->id, tune.id))
            return other->id;
    return std::nullopt;
}

}  // namespace answers
