// Tested by players_file_test.cc.
#include "repertoire/players_file.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <set>

#include "music/pitch.h"

namespace repertoire {

namespace {

using Json = nlohmann::ordered_json;

constexpr int kVersion = 1;

Json notes_json(const std::optional<music::NoteSet>& notes) {
    if (!notes) return nullptr;
    Json names = Json::array();
    for (const int midi : notes->midi_numbers()) names.push_back(music::to_string(music::spell_midi(midi)));
    return names;
}

Json tune_json(const FiledTune& tune) {
    Json json;
    json["id"] = tune.said.tune.value;
    json["title"] = tune.title;
    json["file"] = tune.file;
    json["number"] = tune.number ? Json(*tune.number) : Json(nullptr);
    json["wished"] = tune.said.wished;
    json["excluded"] = tune.said.excluded ? Json(*tune.said.excluded) : Json(nullptr);
    json["events"] = Json::array();
    for (const tune::DatedEvent& dated : tune.said.events)
        json["events"].push_back({{"day", base::to_string(dated.day)}, {"event", tune::event_token(dated.event)}});
    return json;
}

// A member that must be there, of a kind; `where` is the thing it belongs to.
const Json& member(const Json& json, const char* name, const std::string& where) {
    if (!json.is_object() || !json.contains(name)) throw PlayersFileFault(where + " has no \"" + name + "\"");
    return json.at(name);
}

std::string text_of(const Json& json, const char* name, const std::string& where) {
    const Json& value = member(json, name, where);
    if (!value.is_string()) throw PlayersFileFault(where + ": \"" + name + "\" must be a text");
    return value.get<std::string>();
}

std::optional<std::string> text_or_null(const Json& json, const char* name, const std::string& where) {
    if (!json.is_object() || !json.contains(name) || json.at(name).is_null()) return std::nullopt;
    return text_of(json, name, where);
}

bool is_true(const Json& json, const char* name, const std::string& where) {
    if (!json.contains(name) || json.at(name).is_null()) return false;
    if (!json.at(name).is_boolean()) throw PlayersFileFault(where + ": \"" + name + "\" must be true or false");
    return json.at(name).get<bool>();
}

const Json& list_of(const Json& json, const char* name, const std::string& where) {
    const Json& value = member(json, name, where);
    if (!value.is_array()) throw PlayersFileFault(where + ": \"" + name + "\" must be a list");
    return value;
}

std::optional<music::NoteSet> notes_of(const Json& json, const std::string& where) {
    if (!json.contains("notes") || json.at("notes").is_null()) return std::nullopt;
    music::NoteSet notes;
    for (const Json& item : list_of(json, "notes", where)) {
        const auto pitch = item.is_string() ? music::parse_pitch(item.get<std::string>()) : std::nullopt;
        if (!pitch) throw PlayersFileFault(where + ": " + item.dump() + " is no note such as \"C#5\"");
        notes.add(pitch->midi());
    }
    return notes;
}

std::vector<tune::DatedEvent> events_of(const Json& json, const std::string& where) {
    std::vector<tune::DatedEvent> events;
    for (const Json& item : list_of(json, "events", where)) {
        const std::string word = text_of(item, "event", where);
        const auto event = tune::parse_event(word);
        if (!event) throw PlayersFileFault(where + ": \"" + word + "\" is nothing that happens to a tune");
        try {
            const base::Date day = base::read_date(text_of(item, "day", where));
            if (!tune::is_sayable(day))
                throw PlayersFileFault(where + ": the day " + base::to_string(day) + " is outside the years " +
                                       std::to_string(tune::kFirstYear) + " to " + std::to_string(tune::kLastYear));
            events.push_back({day, *event});
        } catch (const base::DateFault& fault) {
            throw PlayersFileFault(where + ": " + fault.what());
        }
    }
    std::stable_sort(events.begin(), events.end(),
                     [](const auto& one, const auto& other) { return one.day < other.day; });
    return events;
}

FiledTune tune_of(const Json& json, const std::string& player) {
    FiledTune tune;
    tune.title = text_of(json, "title", "a tune of " + player);
    const std::string where = player + ", \"" + tune.title + "\"";
    tune.file = text_or_null(json, "file", where).value_or("");
    tune.number = text_or_null(json, "number", where);
    if (json.contains("id") && json.at("id").is_number_integer())
        tune.said.tune.value = json.at("id").get<std::int64_t>();
    tune.said.wished = is_true(json, "wished", where);
    tune.said.excluded = text_or_null(json, "excluded", where);
    tune.said.events = events_of(json, where);
    return tune;
}

FiledPlayer player_of(const Json& json) {
    FiledPlayer filed;
    const std::string name = text_of(json, "name", "a player");
    try {
        filed.player.name = tune::read_player_name(name);
    } catch (const tune::PlayerNameFault& fault) {
        throw PlayersFileFault(fault.what());
    }
    filed.player.instrument = text_or_null(json, "instrument", name);
    filed.player.notes = notes_of(json, name);
    for (const Json& tune : list_of(json, "tunes", name)) filed.tunes.push_back(tune_of(tune, name));
    return filed;
}

// How deep brackets go, strings passed over: the parser takes memory for each, and ours never go further than this.
constexpr int kDeepest = 16;

bool is_too_deep(std::string_view text) {
    int depth = 0;
    bool is_in_string = false;
    for (std::size_t at = 0; at < text.size(); ++at) {
        const char c = text[at];
        if (is_in_string && c == '\\')
            ++at;
        else if (c == '"')
            is_in_string = !is_in_string;
        else if (!is_in_string && (c == '[' || c == '{') && ++depth > kDeepest)
            return true;
        else if (!is_in_string && (c == ']' || c == '}'))
            --depth;
    }
    return false;
}

}  // namespace

std::string write_players(std::span<const FiledPlayer> players) {
    Json json;
    json["version"] = kVersion;
    json["players"] = Json::array();
    for (const FiledPlayer& filed : players) {
        Json one;
        one["name"] = filed.player.name.text;
        one["instrument"] = filed.player.instrument ? Json(*filed.player.instrument) : Json(nullptr);
        one["notes"] = notes_json(filed.player.notes);
        one["tunes"] = Json::array();
        for (const FiledTune& tune : filed.tunes) one["tunes"].push_back(tune_json(tune));
        json["players"].push_back(std::move(one));
    }
    return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::vector<FiledPlayer> read_players(std::string_view text) {
    if (is_too_deep(text)) throw PlayersFileFault("this is no file of players: brackets go too deep");
    Json json;
    try {
        json = Json::parse(text);
    } catch (const Json::parse_error& error) {
        throw PlayersFileFault("this is no JSON (byte " + std::to_string(error.byte) + ")");
    } catch (const Json::exception&) {
        throw PlayersFileFault("this is no file of players: it has a number that is too large");
    }
    const Json& version = member(json, "version", "the file");
    if (!version.is_number_integer() || version.get<std::int64_t>() != kVersion)
        throw PlayersFileFault("its \"version\" is " + version.dump() + ", and this gamut reads version 1");
    std::vector<FiledPlayer> players;
    std::set<std::string> names;
    for (const Json& one : list_of(json, "players", "the file")) {
        players.push_back(player_of(one));
        if (!names.insert(players.back().player.name.folded).second)
            throw PlayersFileFault("it names \"" + players.back().player.name.text + "\" twice");
    }
    return players;
}

}  // namespace repertoire
