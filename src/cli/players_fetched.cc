#include "cli/players_fetched.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "answers/player_named.h"
#include "answers/stored_request.h"
#include "answers/term_names.h"
#include "base/utf8.h"
#include "cli/shell_word.h"
#include "cli/terminal.h"
#include "library/journal.h"
#include "library/name_said.h"
#include "library/syllabi.h"
#include "report/words/words.h"
#include "syllabus/stored_syllabus.h"
#include "tune/title.h"

namespace cli {

TunesHere::TunesHere(const collection::Collection& library) : library_(library) {
    for (const tune::TitledTune& tune : library.titled_tunes())
        for (const std::string& folded : tune.folded) titled_[folded].push_back(tune.id);
}

const repertoire::TuneHere& TunesHere::with_settings(tune::TuneId id) {
    const auto [at, is_new] = known_.try_emplace(id);
    if (!is_new) return at->second;
    std::vector<tune::TuneRecord> settings = library_.settings_of(id);
    if (settings.empty())
        if (auto gone = library_.tune_by_id(id)) settings.push_back(std::move(*gone));
    at->second.id = id;
    for (const tune::TuneRecord& setting : settings) {
        at->second.titles.insert(at->second.titles.end(), setting.titles.begin(), setting.titles.end());
        at->second.places.push_back({setting.file, setting.number});
    }
    return at->second;
}

const std::vector<tune::TuneId>& TunesHere::at_place(const std::string& file,
                                                     const std::optional<std::string>& number) {
    if (!at_place_) {
        at_place_.emplace();
        collection::Selection all;
        all.settings = true;
        for (const tune::TuneRecord& record : library_.select_tunes(all).rows)
            (*at_place_)[{record.file, record.number}].push_back(record.id);
    }
    return (*at_place_)[{file, number}];
}

std::optional<repertoire::TuneMeant> TunesHere::meant_by(const repertoire::FiledTune& filed) {
    std::vector<tune::TuneId> could_be;
    if (const auto same = library_.tune_by_id(filed.said.tune)) could_be.push_back(same->id);
    if (!filed.title.empty()) {
        if (const auto titled = titled_.find(tune::fold_title(filed.title)); titled != titled_.end())
            could_be.insert(could_be.end(), titled->second.begin(), titled->second.end());
    } else if (!filed.file.empty()) {
        const std::vector<tune::TuneId>& there = at_place(filed.file, filed.number);
        could_be.insert(could_be.end(), there.begin(), there.end());
    }
    std::sort(could_be.begin(), could_be.end());
    could_be.erase(std::unique(could_be.begin(), could_be.end()), could_be.end());
    std::vector<repertoire::TuneHere> here;
    for (const tune::TuneId id : could_be) here.push_back(with_settings(id));
    return repertoire::tune_meant(filed, here);
}

report::PlayerPage page_of(const collection::Collection& library, const collection::PlayerRecord& record) {
    report::PlayerPage page;
    page.player = record.player;
    if (const instruments::Instrument* instrument = answers::known_instrument_of(record.player))
        page.instrument = instrument->title;
    page.notes = answers::notes_of(library, record);
    for (const tune::PlayerTune& said : record.tunes) {
        const auto tune = library.tune_by_id(said.tune);
        page.tunes.push_back(
            {said, tune ? tune::title_of(*tune) : std::string(tune::kNoTitle), library.settings_of(said.tune).empty()});
    }
    std::sort(page.tunes.begin(), page.tunes.end(), [](const auto& one, const auto& other) {
        return std::tuple(tune::fold_title(one.title), one.said.tune) <
               std::tuple(tune::fold_title(other.title), other.said.tune);
    });
    return page;
}

repertoire::FiledPlayer filed(const collection::Collection& library, const collection::PlayerRecord& record) {
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

report::PlayerHistory history_of(const collection::Collection& library, const tune::Player& player) {
    report::PlayerHistory history{player.name.text, {}};
    std::map<tune::TuneId, std::string> titles;
    for (const collection::PlayerHappening& happened : library.history_of(player.id)) {
        auto title = titles.find(happened.tune);
        if (title == titles.end()) {
            const auto tune = library.tune_by_id(happened.tune);
            title = titles.emplace(happened.tune, tune ? tune::title_of(*tune) : std::string(tune::kNoTitle)).first;
        }
        history.happenings.push_back({happened.tune, title->second, happened.what});
    }
    return history;
}

std::string terms_in_words(const std::vector<std::string>& names) {
    std::string words;
    for (const std::string& name : names) words += (words.empty() ? "" : ", ") + name;
    if (words.empty()) return words;
    return (names.size() == 1 ? "the term " : "the terms ") + words;
}

std::string terms_of(const std::filesystem::path& file, const tune::PlayerName& name) {
    std::vector<std::string> names;
    for (const library::KeptSyllabus& kept : library::kept_syllabi(file)) {
        std::vector<std::string> players;
        try {
            players = answers::read_request(syllabus::read_stored(kept.text).asked).filter.players;
        } catch (const syllabus::StoredFault&) {
            continue;  // gamut syllabus tells
        }
        if (std::none_of(players.begin(), players.end(),
                         [&](const std::string& player) { return tune::fold_player_name(player) == name.folded; }))
            continue;
        names.push_back(kept.name);
    }
    return terms_in_words(names);
}

namespace {

// `tag "solid"`, where a saying says it in words of its own.
struct PlaceOfName {
    std::string operator()(const people::TagGiven& said) const { return in_quotes("tag", said.tag); }
    std::string operator()(const people::RhythmSaid& said) const { return in_quotes("kind", *said.rhythm); }
    std::string operator()(const people::AliasSaid& said) const { return in_quotes("alias", said.alias); }
    std::string operator()(const people::ClassSaid& said) const { return in_quotes("class", said.name); }
    std::string operator()(const people::ExclusionSaid& said) const { return in_quotes("reason", *said.reason); }
    std::string operator()(const people::TermSaid& said) const { return in_quotes("term", said.name); }
    template <typename Other>
    std::string operator()(const Other&) const {
        return {};  // it was said before that, by one of these
    }

    static std::string in_quotes(const char* what, const std::string& text) {
        return std::string(what) + " \"" + base::printable(text) + "\"";
    }
};

}  // namespace

std::string copies_told(const std::filesystem::path& file) {
    const std::vector<std::string> copies = library::copies_beside(file);
    if (copies.empty()) return " Backups made before still hold it.";
    std::string words = " Still in ";
    for (std::size_t at = 0; at < copies.size(); ++at) words += (at == 0 ? "" : ", ") + copies[at];
    return words + " and in backups made elsewhere.";
}

std::string told_where_said(const std::filesystem::path& file, const std::vector<tune::PlayerName>& names) {
    std::string sentences;
    for (const tune::PlayerName& name : names) {
        const std::vector<people::Entry> entries = library::entries_saying(
            file, name, [&](const std::string& text) { return answers::unnamed_in_term(text, name); });
        if (entries.empty()) continue;
        std::set<std::string> places;
        for (const people::Entry& entry : entries) places.insert(std::visit(PlaceOfName{}, entry.saying.words));
        places.erase("");
        std::string list;
        for (const std::string& place : places) list += (list.empty() ? ": " : ", ") + place;
        const std::string word = shell_word(name.text);
        sentences += " The name " + name.text + " still stands in " +
                     report::counted(static_cast<std::int64_t>(entries.size()), "entry", "entries") +
                     " of the journal" + list + ". gamut library erase " + word +
                     " shows them, and erases them with --yes.";
    }
    return sentences;
}

}  // namespace cli
