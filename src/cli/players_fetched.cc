#include "cli/players_fetched.h"

#include <algorithm>
#include <tuple>

#include "cli/player_named.h"
#include "report/words.h"
#include "tune/title.h"

namespace cli {

namespace {

bool has_title(const tune::TuneRecord& record, const std::string& title) {
    if (title.empty()) return record.titles.empty();
    const std::string folded = tune::fold_title(title);
    return std::any_of(record.titles.begin(), record.titles.end(),
                       [&](const std::string& one) { return tune::fold_title(one) == folded; });
}

bool stands_at(const tune::TuneRecord& record, const repertoire::FiledTune& filed) {
    return !filed.file.empty() && record.file == filed.file && record.number == filed.number;
}

}  // namespace

report::PlayerPage page_of(const library::Library& library, const library::PlayerRecord& record) {
    report::PlayerPage page;
    page.player = record.player;
    if (const instruments::Instrument* instrument = instrument_of(record.player)) page.instrument = instrument->title;
    page.notes = notes_of(library, record);
    for (const tune::PlayerTune& said : record.tunes) {
        const auto tune = library.tune_by_id(said.tune);
        page.tunes.push_back(
            {said, tune ? report::title_of(*tune) : "(no title)", library.settings_of(said.tune).empty()});
    }
    std::sort(page.tunes.begin(), page.tunes.end(), [](const auto& one, const auto& other) {
        return std::tuple(tune::fold_title(one.title), one.said.tune) <
               std::tuple(tune::fold_title(other.title), other.said.tune);
    });
    return page;
}

repertoire::FiledPlayer filed(const library::Library& library, const library::PlayerRecord& record) {
    repertoire::FiledPlayer filed{record.player, {}};
    for (const tune::PlayerTune& said : record.tunes) {
        repertoire::FiledTune tune;
        tune.said = said;
        if (const auto here = library.tune_by_id(said.tune)) {
            if (!here->titles.empty()) tune.title = here->titles.front();
            tune.file = here->file;
            tune.number = here->number;
        }
        filed.tunes.push_back(std::move(tune));
    }
    return filed;
}

std::optional<tune::TuneId> tune_meant(const library::Library& library, const repertoire::FiledTune& filed) {
    if (const auto same = library.tune_by_id(filed.said.tune); same && has_title(*same, filed.title)) return same->id;
    std::vector<tune::TuneRecord> titled;
    if (!filed.title.empty())
        for (tune::TuneRecord& record : library.tunes_titled(filed.title))
            if (has_title(record, filed.title)) titled.push_back(std::move(record));
    if (titled.size() == 1) return titled.front().id;
    const auto there = std::find_if(titled.begin(), titled.end(),
                                    [&](const tune::TuneRecord& record) { return stands_at(record, filed); });
    return there == titled.end() ? std::nullopt : std::optional(there->id);
}

}  // namespace cli
