// Tested by saying_test.cc.
#include "people/saying.h"

#include <array>
#include <charconv>
#include <nlohmann/json.hpp>
#include <utility>

#include "base/utf8.h"

namespace people {

namespace {

using Json = nlohmann::ordered_json;

struct Kind {
    std::string_view token;
    Subject subject;
};

// In the order of Words.
constexpr std::array<Kind, std::variant_size_v<Words>> kKinds{
    {{"tag", Subject::marks},          {"untag", Subject::marks},
     {"count", Subject::marks},        {"rhythm", Subject::marks},
     {"key", Subject::marks},          {"alias", Subject::marks},
     {"alias-gone", Subject::marks},   {"same", Subject::verdicts},
     {"player", Subject::players},     {"player-change", Subject::players},
     {"notes", Subject::players},      {"player-gone", Subject::players},
     {"event", Subject::players},      {"wish", Subject::players},
     {"unwanted", Subject::players},   {"class", Subject::players},
     {"class-gone", Subject::players}, {"term", Subject::terms},
     {"term-gone", Subject::terms},    {"take-back", Subject::journal},
     {"erased", Subject::journal}}};

std::string_view change_token(NotesChange change) noexcept {
    return change == NotesChange::are ? "are" : change == NotesChange::more ? "more" : "less";
}

[[noreturn]] void fail(const std::string& why) { throw SayingFault(why); }

// ---- writing

Json of(const NamedTune& tune) {
    Json json = {{"id", tune.id.value}};
    if (tune.melody_class) {
        std::array<char, 16> digits{};
        const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), *tune.melody_class, 16).ptr;
        json["class"] = std::string(digits.data(), end);
    }
    if (!tune.title.empty()) json["title"] = tune.title;
    return json;
}

Json of(const NamedTunes& tunes) {
    Json json = Json::array();
    for (const NamedTune& tune : tunes) json.push_back(of(tune));
    return json;
}

Json of(const std::optional<music::NoteSet>& notes) { return notes ? Json(notes->midi_numbers()) : Json(nullptr); }

template <typename T>
Json or_null(const std::optional<T>& value) {
    return value ? Json(*value) : Json(nullptr);
}

struct Writer {
    Json& json;

    void said_of(const NamedTune& tune, const NamedTunes& instead_of) const {
        json["tune"] = of(tune);
        if (!instead_of.empty()) json["instead_of"] = of(instead_of);
    }
    void operator()(const TagGiven& said) const {
        said_of(said.tune, {});
        json["tag"] = said.tag;
    }
    void operator()(const TagTaken& said) const {
        said_of(said.tune, said.instead_of);
        json["tag"] = said.tag;
    }
    void operator()(const CountSaid& said) const {
        said_of(said.tune, said.instead_of);
        json["times"] = or_null(said.times);
    }
    void operator()(const RhythmSaid& said) const {
        said_of(said.tune, said.instead_of);
        json["rhythm"] = or_null(said.rhythm);
    }
    void operator()(const KeySaid& said) const {
        said_of(said.tune, said.instead_of);
        json["key"] = said.key ? Json(music::to_string(*said.key)) : Json(nullptr);
    }
    void operator()(const AliasSaid& said) const {
        said_of(said.tune, {});
        json["alias"] = said.alias;
    }
    void operator()(const AliasGone& said) const { json["folded"] = said.folded; }
    void operator()(const SameSaid& said) const {
        json["tune"] = of(said.one);
        json["other"] = of(said.other);
        json["same"] = said.is_same;
    }
    void operator()(const PlayerAdded& said) const {
        json["name"] = said.name;
        if (said.instrument) json["instrument"] = *said.instrument;
        if (said.notes) json["notes"] = of(said.notes);
    }
    void operator()(const PlayerChanged& said) const {
        json["player"] = said.player;
        if (said.name) json["name"] = *said.name;
        if (said.instrument) json["instrument"] = *said.instrument;
    }
    void operator()(const NotesSaid& said) const {
        json["player"] = said.player;
        json["notes_" + std::string(change_token(said.change))] = of(said.notes);
    }
    void operator()(const PlayerGone& said) const { json["player"] = said.player; }
    void operator()(const Happened& said) const {
        json["player"] = said.player;
        json["tune"] = of(said.tune);
        json["event"] = tune::event_token(said.what.event);
        json["on"] = base::to_string(said.what.day);
        if (said.is_first) json["first"] = true;
        if (!said.among.empty()) json["among"] = of(said.among);
    }
    void operator()(const WishSaid& said) const {
        json["player"] = said.player;
        said_of(said.tune, said.instead_of);
        json["wished"] = said.is_wished;
    }
    void operator()(const ExclusionSaid& said) const {
        json["player"] = said.player;
        said_of(said.tune, said.instead_of);
        json["reason"] = or_null(said.reason);
    }
    void operator()(const ClassSaid& said) const {
        json["name"] = said.name;
        json["players"] = said.members;
    }
    void operator()(const ClassGone& said) const { json["folded"] = said.folded; }
    void operator()(const TermSaid& said) const {
        json["name"] = said.name;
        json["folded"] = said.folded;
        if (said.is_restated) json["restated"] = true;
        json["text"] = said.text;
    }
    void operator()(const TermGone& said) const { json["folded"] = said.folded; }
    void operator()(const TakenBack& said) const { json["sayings"] = said.sayings; }
    void operator()(const Erased& said) const { json["sayings"] = said.sayings; }
};

// ---- reading

const Json& member(const Json& json, const char* name) {
    const auto found = json.find(name);
    if (found == json.end()) fail("it has no \"" + std::string(name) + "\"");
    return *found;
}

std::string text_of(const Json& json, const char* name) {
    const Json& value = member(json, name);
    if (!value.is_string()) fail("\"" + std::string(name) + "\" is no text");
    return value.get<std::string>();
}

std::optional<std::string> text_if_any(const Json& json, const char* name) {
    const auto found = json.find(name);
    if (found == json.end() || found->is_null()) return std::nullopt;
    return text_of(json, name);
}

bool truth_of(const Json& json, const char* name) {
    const Json& value = member(json, name);
    if (!value.is_boolean()) fail("\"" + std::string(name) + "\" is neither true nor false");
    return value.get<bool>();
}

bool is_said(const Json& json, const char* name) { return json.contains(name) && truth_of(json, name); }

std::int64_t number_of(const Json& json, const char* name) {
    const Json& value = member(json, name);
    if (!value.is_number_integer()) fail("\"" + std::string(name) + "\" is no whole number");
    if (value.is_number_unsigned() && value.get<std::uint64_t>() > INT64_MAX)
        fail("\"" + std::string(name) + "\" is too large");
    return value.get<std::int64_t>();
}

bool is_seal(const std::string& text) {
    return text.size() == 32 && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

Seal seal_in(const Json& json, const char* name) {
    std::string seal = text_of(json, name);
    if (!is_seal(seal)) fail("\"" + std::string(name) + "\" is no seal");
    return seal;
}

std::vector<Seal> seals_in(const Json& json, const char* name = "sayings") {
    const Json& value = member(json, name);
    if (!value.is_array()) fail("\"" + std::string(name) + "\" is no list");
    std::vector<Seal> seals;
    for (const Json& one : value) {
        if (!one.is_string() || !is_seal(one.get<std::string>()))
            fail("\"" + std::string(name) + "\" has something that is no seal");
        seals.push_back(one.get<std::string>());
    }
    return seals;
}

NamedTune tune_in(const Json& json) {
    if (!json.is_object()) fail("a tune is no object");
    NamedTune tune;
    tune.id.value = number_of(json, "id");
    if (const auto digits = text_if_any(json, "class")) {
        std::uint64_t value = 0;
        const char* last = digits->data() + digits->size();
        const auto [end, error] = std::from_chars(digits->data(), last, value, 16);
        if (error != std::errc() || end != last) fail("\"class\" is no number");
        tune.melody_class = value;
    }
    tune.title = text_if_any(json, "title").value_or("");
    return tune;
}

NamedTunes tunes_in(const Json& json, const char* name) {
    NamedTunes tunes;
    const auto found = json.find(name);
    if (found == json.end()) return tunes;
    if (!found->is_array()) fail("\"" + std::string(name) + "\" is no list");
    for (const Json& one : *found) tunes.push_back(tune_in(one));
    return tunes;
}

std::optional<music::NoteSet> notes_in(const Json& json, const char* name) {
    const auto found = json.find(name);
    if (found == json.end() || found->is_null()) return std::nullopt;
    if (!found->is_array()) fail("\"" + std::string(name) + "\" is no list");
    music::NoteSet notes;
    for (const Json& one : *found) {
        if (!one.is_number_integer() || one.get<std::int64_t>() < 0 || one.get<std::int64_t>() >= music::kMidiNotes)
            fail("\"" + std::string(name) + "\" has something that is no note");
        notes.add(one.get<int>());
    }
    return notes;
}

base::Date day_in(const std::string& text) {
    try {
        return base::read_date(text);
    } catch (const base::DateFault& fault) {
        fail(fault.what());
    }
}

std::string name_in(const Json& json) {
    std::string name = text_of(json, "name");
    try {
        tune::read_player_name(name);
    } catch (const tune::PlayerNameFault& fault) {
        fail(fault.what());
    }
    return name;
}

std::optional<music::Key> key_in(const Json& json) {
    const auto text = text_if_any(json, "key");
    if (!text) return std::nullopt;
    const auto key = music::key_stated_in(*text);
    if (!key) fail("\"key\" is no key");
    return key;
}

NotesSaid notes_said(const Json& json) {
    for (const NotesChange change : {NotesChange::are, NotesChange::more, NotesChange::less}) {
        const std::string name = "notes_" + std::string(change_token(change));
        if (!json.contains(name)) continue;
        NotesSaid said{seal_in(json, "player"), change, notes_in(json, name.c_str())};
        if (!said.notes && change != NotesChange::are) fail("no notes are named");
        return said;
    }
    fail("no notes are named");
}

Words words_in(std::string_view kind, const Json& json) {
    const auto tune = [&] { return tune_in(member(json, "tune")); };
    const auto instead_of = [&] { return tunes_in(json, "instead_of"); };
    if (kind == "tag") return TagGiven{tune(), text_of(json, "tag")};
    if (kind == "untag") return TagTaken{tune(), instead_of(), text_of(json, "tag")};
    if (kind == "count") {
        CountSaid said{tune(), instead_of(), std::nullopt};
        if (!member(json, "times").is_null()) said.times = number_of(json, "times");
        if (said.times && *said.times < 0) fail("\"times\" is less than 0");
        return said;
    }
    if (kind == "rhythm") return RhythmSaid{tune(), instead_of(), text_if_any(json, "rhythm")};
    if (kind == "key") return KeySaid{tune(), instead_of(), key_in(json)};
    if (kind == "alias") return AliasSaid{tune(), text_of(json, "alias")};
    if (kind == "alias-gone") return AliasGone{text_of(json, "folded")};
    if (kind == "same") return SameSaid{tune(), tune_in(member(json, "other")), truth_of(json, "same")};
    if (kind == "player") return PlayerAdded{name_in(json), text_if_any(json, "instrument"), notes_in(json, "notes")};
    if (kind == "player-change") {
        PlayerChanged said{seal_in(json, "player"), std::nullopt, text_if_any(json, "instrument")};
        if (json.contains("name")) said.name = name_in(json);
        return said;
    }
    if (kind == "notes") return notes_said(json);
    if (kind == "player-gone") return PlayerGone{seal_in(json, "player")};
    if (kind == "event") {
        const auto event = tune::parse_event(text_of(json, "event"));
        if (!event) fail("\"event\" is nothing that happens to a tune");
        return Happened{seal_in(json, "player"),
                        tune(),
                        tunes_in(json, "among"),
                        {day_in(text_of(json, "on")), *event},
                        is_said(json, "first")};
    }
    if (kind == "wish") return WishSaid{seal_in(json, "player"), tune(), instead_of(), truth_of(json, "wished")};
    if (kind == "unwanted")
        return ExclusionSaid{seal_in(json, "player"), tune(), instead_of(), text_if_any(json, "reason")};
    if (kind == "class") return ClassSaid{name_in(json), seals_in(json, "players")};
    if (kind == "class-gone") return ClassGone{text_of(json, "folded")};
    if (kind == "term")
        return TermSaid{text_of(json, "name"), text_of(json, "folded"), text_of(json, "text"),
                        is_said(json, "restated")};
    if (kind == "term-gone") return TermGone{text_of(json, "folded")};
    if (kind == "take-back") return TakenBack{seals_in(json)};
    if (kind == "erased") return Erased{seals_in(json)};
    fail("\"" + base::printable(std::string(kind)) + "\" is nothing that is said");
}

}  // namespace

Subject subject_of(std::string_view kind) noexcept {
    for (const Kind& known : kKinds)
        if (known.token == kind) return known.subject;
    return Subject::journal;
}

bool is_known_kind(std::string_view kind) noexcept {
    for (const Kind& known : kKinds)
        if (known.token == kind) return true;
    return false;
}

std::string_view kind_of(const Words& words) noexcept { return kKinds[words.index()].token; }

const NamedTune* tune_of(const Words& words) noexcept {
    return std::visit(
        [](const auto& said) -> const NamedTune* {
            if constexpr (requires { said.tune; })
                return &said.tune;
            else
                return nullptr;
        },
        words);
}

const Seal* player_of(const Words& words) noexcept {
    return std::visit(
        [](const auto& said) -> const Seal* {
            if constexpr (requires { said.player; })
                return &said.player;
            else
                return nullptr;
        },
        words);
}

std::string write_saying(const Saying& saying, std::string_view salt) {
    Json json = {{"said", kind_of(saying.words)}};
    if (saying.day) json["day"] = base::to_string(*saying.day);
    if (saying.with) json["with"] = *saying.with;
    std::visit(Writer{json}, saying.words);
    json["salt"] = salt;
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Saying read_saying(std::string_view text) {
    const Json json = Json::parse(text, nullptr, false);
    if (!json.is_object()) fail("it is no JSON object");
    Saying saying{words_in(text_of(json, "said"), json), std::nullopt, std::nullopt};
    if (const auto day = text_if_any(json, "day")) saying.day = day_in(*day);
    if (json.contains("with")) saying.with = seal_in(json, "with");
    return saying;
}

}  // namespace people
