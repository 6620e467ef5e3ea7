// Tested by kept_json_test.cc.
#include "page/kept_json.h"

#include <nlohmann/json.hpp>

#include "base/date.h"
#include "tune/tag.h"
#include "tune/title.h"

namespace page {

namespace {

using Json = nlohmann::ordered_json;

Json notes_json(const std::optional<music::NoteSet>& notes) {
    return notes ? Json(notes->midi_numbers()) : Json(nullptr);
}

std::optional<music::NoteSet> read_midi(const Json& json) {
    if (json.is_null()) return std::nullopt;
    music::NoteSet notes;
    for (const int midi : json.get<std::vector<int>>()) {
        if (midi < 0 || midi >= music::kMidiNotes) throw KeptFault("a note stands in it that is none");
        notes.add(midi);
    }
    return notes;
}

void write_tunes(const people::Kept& kept, people::PlayerNumber number, Json& json) {
    json["events"] = Json::array();
    for (const auto& [rank, event] : kept.events)
        if (event.player == number) {
            json["events"].push_back({{"tune", event.tune},
                                      {"on", base::to_string(event.what.day)},
                                      {"what", tune::event_token(event.what.event)}});
            if (event.place) json["events"].back()["place"] = *event.place;
        }
    json["wishes"] = Json::array();
    for (const auto& [whose, tune] : kept.wishes)
        if (whose == number) json["wishes"].push_back(tune);
    json["unwanted"] = Json::array();
    for (const auto& [whose, reason] : kept.exclusions)
        if (whose.first == number) json["unwanted"].push_back({{"tune", whose.second}, {"why", reason}});
}

void read_tunes(const Json& json, people::PlayerNumber number, people::Kept& kept) {
    for (const Json& one : json.value("events", Json::array())) {
        const auto event = tune::parse_event(one.at("what").get<std::string>());
        const base::Date day = base::read_date(one.at("on").get<std::string>());
        if (!event || !tune::is_sayable(day)) throw KeptFault("something happened to a tune that cannot happen");
        people::KeptEvent happened{number, one.at("tune").get<people::TuneNumber>(), {day, *event}, std::nullopt};
        if (one.contains("place")) happened.place = one.at("place").get<std::int64_t>();
        kept.events[static_cast<std::int64_t>(kept.events.size()) + 1] = happened;
    }
    for (const Json& one : json.value("wishes", Json::array()))
        kept.wishes.insert({number, one.get<people::TuneNumber>()});
    for (const Json& one : json.value("unwanted", Json::array()))
        kept.exclusions[{number, one.at("tune").get<people::TuneNumber>()}] = one.at("why").get<std::string>();
}

people::Kept kept_in(const Json& json) {
    people::Kept kept;
    for (const Json& one : json.value("players", Json::array())) {
        const auto number = static_cast<people::PlayerNumber>(kept.players.size()) + 1;
        people::KeptPlayer player;
        const tune::PlayerName name = tune::read_player_name(one.at("name").get<std::string>());
        player.name = name.text;
        player.folded = name.folded;
        if (one.contains("instrument") && !one.at("instrument").is_null())
            player.instrument = one.at("instrument").get<std::string>();
        if (one.contains("notes")) player.notes = read_midi(one.at("notes"));
        kept.players[number] = player;
        read_tunes(one, number, kept);
    }
    for (const Json& one : json.value("tags", Json::array())) {
        const tune::Tag tag = tune::read_tag(one.at("tag").get<std::string>());
        kept.tags.try_emplace(tag.folded, tag.text);
        kept.tunes_tagged.insert({one.at("tune").get<people::TuneNumber>(), tag.folded});
    }
    for (const Json& one : json.value("counts", Json::array()))
        kept.counts[one.at("tune").get<people::TuneNumber>()] = one.at("times").get<std::int64_t>();
    for (const Json& one : json.value("rhythms", Json::array()))
        kept.rhythms[one.at("tune").get<people::TuneNumber>()] = {one.at("rhythm").get<std::string>(),
                                                                  one.at("said").get<std::int64_t>()};
    for (const Json& one : json.value("keys", Json::array())) {
        const auto key = music::parse_key(one.at("key").get<std::string>());
        if (!key) throw KeptFault("a key stands in it that is none");
        kept.keys[one.at("tune").get<people::TuneNumber>()] = {*key, one.at("said").get<std::int64_t>()};
    }
    for (const Json& one : json.value("aliases", Json::array())) {
        const std::string text = one.at("text").get<std::string>();
        kept.aliases[tune::fold_title(text)] = {text, one.at("tune").get<people::TuneNumber>()};
    }
    for (const Json& one : json.value("verdicts", Json::array()))
        kept.verdicts[{one.at("one").get<people::TuneNumber>(), one.at("other").get<people::TuneNumber>()}] = {
            one.at("same").get<bool>(), one.at("said").get<std::int64_t>()};
    return kept;
}

}  // namespace

std::string write_kept(const people::Kept& kept) {
    Json json;
    json["players"] = Json::array();
    for (const auto& [number, player] : kept.players) {
        Json one{{"name", player.name},
                 {"instrument", player.instrument ? Json(*player.instrument) : Json(nullptr)},
                 {"notes", notes_json(player.notes)}};
        write_tunes(kept, number, one);
        json["players"].push_back(std::move(one));
    }
    for (const char* field : {"tags", "counts", "rhythms", "keys", "aliases", "verdicts"}) json[field] = Json::array();
    for (const auto& [tune, folded] : kept.tunes_tagged) {
        const auto shown = kept.tags.find(folded);
        json["tags"].push_back({{"tune", tune}, {"tag", shown == kept.tags.end() ? folded : shown->second}});
    }
    for (const auto& [tune, times] : kept.counts) json["counts"].push_back({{"tune", tune}, {"times", times}});
    for (const auto& [tune, rhythm] : kept.rhythms)
        json["rhythms"].push_back({{"tune", tune}, {"rhythm", rhythm.rhythm}, {"said", rhythm.said}});
    for (const auto& [tune, key] : kept.keys)
        json["keys"].push_back({{"tune", tune}, {"key", music::to_string(key.key)}, {"said", key.said}});
    for (const auto& [folded, alias] : kept.aliases)
        json["aliases"].push_back({{"text", alias.text}, {"tune", alias.tune}});
    for (const auto& [tunes, verdict] : kept.verdicts)
        json["verdicts"].push_back(
            {{"one", tunes.first}, {"other", tunes.second}, {"same", verdict.is_same}, {"said", verdict.said}});
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

people::Kept read_kept(std::string_view text) {
    try {
        return kept_in(Json::parse(text));
    } catch (const Json::exception&) {
        throw KeptFault("this is not what a page keeps of players and tunes");
    } catch (const base::DateFault& fault) {
        throw KeptFault(fault.what());
    } catch (const tune::PlayerNameFault& fault) {
        throw KeptFault(fault.what());
    } catch (const tune::TagFault& fault) {
        throw KeptFault(fault.what());
    }
}

}  // namespace page
