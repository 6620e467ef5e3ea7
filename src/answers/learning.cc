// Tested by learning_test.cc.
#include "answers/learning.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "abc/read.h"
#include "hands/cheapest_way.h"
#include "hands/time_before.h"
#include "repertoire/bar_stock.h"
#include "tune/outline.h"

namespace answers {

namespace {

bool is_in_the_fingers(const tune::PlayerTune& tune) {
    const auto state = tune::state_of(tune);
    return state == tune::TuneState::known || state == tune::TuneState::rusty;
}

void add_known(const tune::Outline& outline, repertoire::Learner& learner) {
    learner.bars.add(repertoire::figures_of(outline));
    const auto pitch = [](const tune::OutlineNote& one, const tune::OutlineNote& other) {
        return one.midi < other.midi;
    };
    const auto [lowest, highest] = std::minmax_element(outline.notes.begin(), outline.notes.end(), pitch);
    if (lowest != outline.notes.end()) learner.widest = std::max(learner.widest, highest->midi - lowest->midi);
}

// Tunes by the day they were taken up, the latest first. Of a day on which several were taken up nobody can
// say which came last; unless they are of one rhythm, and not too many, it ends there.
std::vector<std::string> last_rhythms_of(const collection::Collection& collection,
                                         const collection::PlayerRecord& player) {
    std::map<base::Date, std::vector<tune::TuneId>, std::greater<>> taken_up;
    for (const tune::PlayerTune& tune : player.tunes)
        if (const auto day = tune::taken_up(tune)) taken_up[*day].push_back(tune.tune);
    std::vector<std::string> rhythms;
    for (const auto& [day, tunes] : taken_up) {
        if (rhythms.size() + tunes.size() > repertoire::kLastTunes) break;
        std::vector<std::string> of_day;
        for (const tune::TuneRecord& record : collection.tunes_by_id(tunes)) {
            const auto rhythm = tune::danced_rhythm(record);
            of_day.push_back(rhythm ? rhythm->value : "");
        }
        if (std::set<std::string>(of_day.begin(), of_day.end()).size() > 1) break;
        rhythms.insert(rhythms.end(), of_day.begin(), of_day.end());
    }
    return rhythms;
}

}  // namespace

Learning learning_of(const collection::Collection& collection, const collection::PlayerRecord& player,
                     const music::NoteSet& have, const std::vector<tune::TuneRecord>& records) {
    Learning learning;
    learning.learner.have = have;
    learning.learner.last_rhythms = last_rhythms_of(collection, player);
    std::set<tune::TuneId> known, met;
    for (const tune::PlayerTune& tune : player.tunes)
        if (is_in_the_fingers(tune)) known.insert(tune.tune);
    std::map<tune::SettingId, std::size_t> place_of;
    for (std::size_t at = 0; at < records.size(); ++at) place_of.emplace(records[at].setting, at);
    std::vector<std::optional<repertoire::TuneMatter>> found(records.size());
    collection.visit_outlines([&](const collection::StoredOutline& stored) {
        const auto place = place_of.find(stored.setting);
        const bool is_known = known.contains(stored.tune);
        if (place == place_of.end() && !is_known) return;
        const auto outline = tune::decode_outline(stored.bytes);
        if (!outline || outline->notes.empty()) return;
        if (is_known) {
            met.insert(stored.tune);
            add_known(*outline, learning.learner);
        }
        if (place != place_of.end()) found[place->second] = repertoire::matter_of(records[place->second], *outline);
    });
    // Tunes whose file is gone are in the fingers all the same.
    std::vector<tune::TuneId> gone;
    std::set_difference(known.begin(), known.end(), met.begin(), met.end(), std::back_inserter(gone));
    for (const tune::TuneRecord& record : collection.tunes_by_id(gone))
        if (const auto outline = collection.outline_of(record.setting)) add_known(*outline, learning.learner);
    for (std::size_t at = 0; at < found.size(); ++at) {
        if (!found[at]) continue;
        learning.matters.push_back(std::move(*found[at]));
        learning.records.push_back(at);
    }
    return learning;
}

std::optional<int> hand_for_a_note(const collection::Collection& collection, tune::SettingId setting,
                                   const instruments::Instrument& instrument) {
    const auto kept = collection.abc_of(setting);
    if (!kept) return std::nullopt;
    base::Diagnostics unheard;
    const auto settings = abc::read_settings(base::SourceFile(kept->file, kept->text), unheard);
    if (settings.empty()) return std::nullopt;
    const auto line = hands::top_of(hands::line_of(settings.back().melody));
    if (line.empty()) return std::nullopt;
    const hands::CheapestWay way = hands::find_cheapest_way(line, instrument, instrument.motion_costs);
    const auto parts = static_cast<std::int64_t>(line.size()) * hands::kCostParts;
    return static_cast<int>((10 * way.cost + parts / 2) / parts);
}

}  // namespace answers
