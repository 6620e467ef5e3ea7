#include "cli/players_fetched.h"

#include <algorithm>
#include <map>
#include <tuple>

#include "cli/player_named.h"
#include "cli/term_words.h"
#include "library/syllabi.h"
#include "report/words.h"
#include "syllabus/stored_syllabus.h"
#include "tune/title.h"

namespace cli {

namespace {

repertoire::TuneHere with_settings(const library::Library& library, const tune::TuneRecord& record) {
    std::vector<tune::TuneRecord> settings = library.settings_of(record.id);
    if (settings.empty()) settings.push_back(record);
    repertoire::TuneHere here{record.id, {}, {}};
    for (const tune::TuneRecord& setting : settings) {
        here.titles.insert(here.titles.end(), setting.titles.begin(), setting.titles.end());
        here.places.push_back({setting.file, setting.number});
    }
    return here;
}

// Those that a filed tune could mean.
std::vector<repertoire::TuneHere> candidates(const library::Library& library, const repertoire::FiledTune& filed) {
    std::vector<repertoire::TuneHere> here;
    const auto add = [&](const tune::TuneRecord& record) {
        if (std::none_of(here.begin(), here.end(),
                         [&](const repertoire::TuneHere& tune) { return tune.id == record.id; }))
            here.push_back(with_settings(library, record));
    };
    if (const auto same = library.tune_by_id(filed.said.tune)) add(*same);
    if (!filed.title.empty()) {
        for (const tune::TuneRecord& record : library.tunes_titled(filed.title)) add(record);
    } else if (!filed.file.empty()) {
        library::Selection selection;
        selection.file = filed.file;
        selection.settings = true;
        for (const tune::TuneRecord& record : library.select_tunes(selection).rows)
            if (record.file == filed.file && record.number == filed.number) add(record);
    }
    return here;
}

}  // namespace

report::PlayerPage page_of(const library::Library& library, const library::PlayerRecord& record) {
    report::PlayerPage page;
    page.player = record.player;
    if (const instruments::Instrument* instrument = known_instrument_of(record.player))
        page.instrument = instrument->title;
    page.notes = notes_of(library, record);
    for (const tune::PlayerTune& said : record.tunes) {
        const auto tune = library.tune_by_id(said.tune);
        page.tunes.push_back({said, tune ? report::title_of(*tune) : std::string(tune::kNoTitle),
                              library.settings_of(said.tune).empty()});
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

std::optional<repertoire::TuneMeant> tune_meant(const library::Library& library, const repertoire::FiledTune& filed) {
    return repertoire::tune_meant(filed, candidates(library, filed));
}

report::PlayerHistory history_of(const library::Library& library, const tune::Player& player) {
    report::PlayerHistory history{player.name.text, {}};
    std::map<tune::TuneId, std::string> titles;
    for (const library::PlayerHappening& happened : library.history_of(player.id)) {
        auto title = titles.find(happened.tune);
        if (title == titles.end()) {
            const auto tune = library.tune_by_id(happened.tune);
            title = titles.emplace(happened.tune, tune ? report::title_of(*tune) : std::string(tune::kNoTitle)).first;
        }
        history.happenings.push_back({happened.tune, title->second, happened.what});
    }
    return history;
}

std::string terms_of(const std::filesystem::path& file, const tune::PlayerName& name) {
    std::string names;
    std::size_t terms = 0;
    for (const library::KeptSyllabus& kept : library::kept_syllabi(file)) {
        std::vector<std::string> asked;
        try {
            asked = syllabus::read_stored(kept.text).asked;
        } catch (const syllabus::StoredFault&) {
            continue;  // gamut syllabus tells
        }
        const std::vector<std::string> players = players_in_words(asked);
        if (std::none_of(players.begin(), players.end(),
                         [&](const std::string& player) { return tune::fold_player_name(player) == name.folded; }))
            continue;
        names += (names.empty() ? "" : ", ") + kept.name;
        ++terms;
    }
    if (terms == 0) return {};
    return (terms == 1 ? "the term " : "the terms ") + names;
}

void rename_in_terms(const std::filesystem::path& file, const tune::PlayerName& from, const tune::PlayerName& to) {
    library::rewrite_syllabi(file, [&](const std::string& text) {
        try {
            syllabus::Syllabus plan = syllabus::read_stored(text);
            plan.asked = words_renamed(std::move(plan.asked), from, to.text);
            return syllabus::write_stored(plan);
        } catch (const syllabus::StoredFault&) {
            return text;  // gamut syllabus tells
        }
    });
}

}  // namespace cli
