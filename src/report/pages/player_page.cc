// Tested by the golden cases of tests/golden/player.
#include "report/pages/player_page.h"

#include <algorithm>
#include <tuple>

#include "report/words/json.h"
#include "report/words/words.h"

namespace report {

namespace {

using tune::TuneState;

std::int64_t how_many(const PlayerPage& page, TuneState state) {
    return std::count_if(page.tunes.begin(), page.tunes.end(),
                         [&](const PlayersTune& tune) { return tune::state_of(tune.said) == state; });
}

std::int64_t how_many_wished(const PlayerPage& page) {
    return std::count_if(page.tunes.begin(), page.tunes.end(),
                         [](const PlayersTune& tune) { return tune.said.wished; });
}

Cell day_or_nothing(const std::optional<base::Date>& day) { return day ? Cell(*day) : Cell(); }

Cell state_or_nothing(const tune::PlayerTune& said) {
    const auto state = tune::state_of(said);
    return state ? Cell(std::string(tune::state_token(*state))) : Cell();
}

// `wished`, `not wanted: too high`, `the file is gone`.
std::string remarks_on(const PlayersTune& tune) {
    std::string remarks;
    const auto add = [&](const std::string& remark) { remarks += (remarks.empty() ? "" : "; ") + remark; };
    if (tune.said.wished) add("wished");
    if (tune.said.excluded) add(tune.said.excluded->empty() ? "not wanted" : "not wanted: " + *tune.said.excluded);
    if (tune.is_gone) add("its file is gone");
    return remarks;
}

Table tunes_of(const PlayerPage& page) {
    Table table{
        {{"id"}, {"title", Fit::wrapped, 16}, {"state"}, {"since"}, {"last played"}, {"remarks", Fit::wrapped, 14}},
        {}};
    for (const PlayersTune& tune : page.tunes)
        table.rows.push_back({Cell(tune.said.tune.value), Cell(tune.title), state_or_nothing(tune.said),
                              day_or_nothing(tune::since(tune.said)), day_or_nothing(tune::last_played(tune.said)),
                              Cell(remarks_on(tune))});
    return table;
}

std::string source_of_notes(const PlayerPage& page) {
    if (page.notes.empty()) return "none yet; gamut player notes says them";
    if (!page.player.notes) return "worked out from the tunes";
    const music::NoteSet more = page.notes.without(*page.player.notes);
    return more.empty() ? "as said" : "as said, and " + note_list(more) + " from the tunes";
}

std::string notes_with_number(const music::NoteSet& notes) {
    return note_list(notes) + (notes.empty() ? "" : " (" + std::to_string(notes.size()) + ")");
}

std::string not_known(const std::string& instrument) { return instrument + " (unknown)"; }

std::string instrument_in_words(const PlayerPage& page) {
    if (!page.player.instrument) return "not said";
    return page.instrument.empty() ? not_known(*page.player.instrument) : page.instrument;
}

// Its id, as a table has it.
Cell instrument_cell(const PlayerPage& page) {
    if (!page.player.instrument) return {};
    return page.instrument.empty() ? Cell(not_known(*page.player.instrument)) : Cell(*page.player.instrument);
}

Particulars notes_of(const PlayerPage& page) {
    Particulars lines;
    lines.lines.emplace_back("instrument", instrument_in_words(page));
    lines.lines.emplace_back("notes", notes_with_number(page.notes));
    lines.lines.emplace_back("they are", source_of_notes(page));
    if (page.player.notes && !page.player.notes->is_within(page.notes))
        lines.lines.emplace_back("left out",
                                 note_list(page.player.notes->without(page.notes)) + ": not on the instrument");
    return lines;
}

Json players_tune_json(const PlayersTune& tune) {
    const auto day = [](const std::optional<base::Date>& date) {
        return date ? Json(base::to_string(*date)) : Json(nullptr);
    };
    const auto state = tune::state_of(tune.said);
    Json json;
    json["id"] = tune.said.tune.value;
    json["title"] = tune.title;
    json["state"] = state ? Json(tune::state_token(*state)) : Json(nullptr);
    json["since"] = day(tune::since(tune.said));
    json["last_played"] = day(tune::last_played(tune.said));
    json["wished"] = tune.said.wished;
    json["excluded"] = or_null(tune.said.excluded);
    json["gone"] = tune.is_gone;
    return json;
}

Json head_json(const PlayerPage& page) {
    Json json;
    json["name"] = page.player.name.text;
    json["instrument"] = or_null(page.player.instrument);
    json["notes"] = note_names(page.notes);
    json["notes_said"] = page.player.notes ? Json(note_names(*page.player.notes)) : Json(nullptr);
    return json;
}

Table classes_of(const PlayersPage& page) {
    Table table{{{"class"}, {"players", Fit::wrapped, 16}}, {}};
    for (const collection::PlayerClass& one : page.classes) {
        std::string names;
        for (const std::string& name : one.players) names += (names.empty() ? "" : ", ") + name;
        table.rows.push_back({Cell(one.name.text), Cell(names)});
    }
    return table;
}

Table history_table(const PlayerHistory& history) {
    Table table{{{"day"}, {"what"}, {"id"}, {"title", Fit::wrapped, 16}}, {}};
    for (const PlayersHappening& happened : history.happenings)
        table.rows.push_back({Cell(happened.what.day), Cell(std::string(tune::event_token(happened.what.event))),
                              Cell(happened.tune.value), Cell(happened.title)});
    return table;
}

}  // namespace

Document describe(const PlayerPage& page) {
    Document document;
    document.blocks.emplace_back(Title{page.player.name.text});
    document.blocks.emplace_back(notes_of(page));
    if (page.tunes.empty())
        document.blocks.emplace_back(Paragraph{"No tunes yet."});
    else
        document.blocks.emplace_back(tunes_of(page));
    return document;
}

Document tabulate(const PlayerPage& page) { return {{tunes_of(page)}}; }

std::string as_json(const PlayerPage& page) {
    Json json;
    json["version"] = 1;
    json["player"] = head_json(page);
    json["player"]["tunes"] = Json::array();
    for (const PlayersTune& tune : page.tunes) json["player"]["tunes"].push_back(players_tune_json(tune));
    return finish(json);
}

Document describe(const PlayersPage& page) {
    Document document{{Title{"Players", true}}};
    if (page.players.empty())
        document.blocks.emplace_back(Hint{"There are no players yet; gamut player add NAME makes one."});
    else {
        document.blocks.push_back(tabulate(page).blocks.front());
        if (!page.classes.empty()) document.blocks.emplace_back(classes_of(page));
        document.blocks.emplace_back(Hint{"gamut player add NAME adds one; gamut player show NAME tells all of one."});
    }
    return document;
}

Document tabulate(const PlayersPage& page) {
    Table table{{{"player", Fit::wrapped, 12},
                 {"instrument", Fit::wrapped, 12},
                 {"notes"},
                 {"known"},
                 {"learning"},
                 {"rusty"},
                 {"wished"}},
                {}};
    for (const PlayerPage& each : page.players)
        table.rows.push_back({Cell(each.player.name.text), instrument_cell(each), Cell(std::int64_t{each.notes.size()}),
                              Cell(how_many(each, TuneState::known)), Cell(how_many(each, TuneState::learning)),
                              Cell(how_many(each, TuneState::rusty)), Cell(how_many_wished(each))});
    return {{std::move(table)}};
}

std::string as_json(const PlayersPage& page) {
    Json json;
    json["version"] = 1;
    json["players"] = Json::array();
    for (const PlayerPage& each : page.players) {
        Json one = head_json(each);
        for (const TuneState state : {TuneState::known, TuneState::learning, TuneState::rusty})
            one[std::string(tune::state_token(state))] = how_many(each, state);
        one["wished"] = how_many_wished(each);
        json["players"].push_back(std::move(one));
    }
    json["classes"] = Json::array();
    for (const collection::PlayerClass& one : page.classes)
        json["classes"].push_back({{"name", one.name.text}, {"players", one.players}});
    return finish(json);
}

Document describe_notes_of(const PlayerPage& page) {
    Document document;
    document.blocks.emplace_back(Title{page.player.name.text});
    document.blocks.emplace_back(notes_of(page));
    return document;
}

Document describe(const PlayerHistory& history) {
    Document document;
    document.blocks.emplace_back(Title{history.player});
    if (Table table = history_table(history); table.rows.empty())
        document.blocks.emplace_back(Paragraph{"Nothing was said of a tune yet."});
    else
        document.blocks.emplace_back(std::move(table));
    return document;
}

Document tabulate(const PlayerHistory& history) { return {{history_table(history)}}; }

std::string as_json(const PlayerHistory& history) {
    Json json;
    json["version"] = 1;
    json["player"] = history.player;
    json["history"] = Json::array();
    for (const PlayersHappening& happened : history.happenings)
        json["history"].push_back({{"day", base::to_string(happened.what.day)},
                                   {"event", tune::event_token(happened.what.event)},
                                   {"id", happened.tune.value},
                                   {"title", happened.title}});
    return finish(json);
}

}  // namespace report
