// Tested by stored_request_test.cc.
#include "answers/stored_request.h"

#include <nlohmann/json.hpp>
#include <type_traits>
#include <utility>
#include <vector>

#include "answers/notes_asked.h"
#include "answers/old_request.h"
#include "instruments/known.h"
#include "music/key.h"
#include "music/pitch.h"
#include "syllabus/course.h"
#include "syllabus/stored_syllabus.h"

namespace answers {

namespace {

using Json = nlohmann::ordered_json;
using syllabus::StoredFault;

constexpr std::string_view kHome = "home";
constexpr std::string_view kAny = "any";

// --- writing

template <typename Value>
void put(Json& json, const char* field, const std::optional<Value>& value) {
    if (value) json[field] = *value;
}

void put(Json& json, const char* field, const std::vector<std::string>& texts) {
    if (!texts.empty()) json[field] = texts;
}

void put_notes(Json& json, const char* field, const std::optional<music::NoteSet>& notes) {
    if (notes) json[field] = words_of(*notes);
}

Json write_must(const TermRequest::Must& must) {
    Json json{{"tune", must.tune}};
    if (must.by_date) json["by_date"] = base::to_string(*must.by_date);
    if (must.by_lesson) json["by_lesson"] = *must.by_lesson;
    return json;
}

void write_filter(const Filter& filter, Json& json) {
    const collection::Selection& columns = filter.columns;
    put(json, "fits", filter.fits);
    put(json, "players", filter.players);
    if (filter.instrument_file)
        json["instrument_file"] = *filter.instrument_file;
    else if (filter.instrument)
        json["instrument"] = filter.instrument->id;
    put(json, "grade", filter.grade);
    if (!columns.uses.empty()) {
        json["uses"] = Json::array();
        for (const music::NoteSet& notes : columns.uses) json["uses"].push_back(words_of(notes));
    }
    put_notes(json, "avoids", columns.avoids);
    put(json, "rhythm", columns.rhythm);
    put(json, "meter", columns.meter);
    if (columns.tonic) json["tonic"] = music::to_string(music::spell_midi(60 + *columns.tonic).name);
    if (columns.mode) json["mode"] = music::mode_token(*columns.mode);
    put_notes(json, "starts_on", columns.starts_on);
    put_notes(json, "ends_on", columns.ends_on);
    put(json, "span", columns.span);
    put(json, "top", columns.top);
    put(json, "bottom", columns.bottom);
    if (columns.octave) json["octave"] = *columns.octave == collection::OctaveRange::home ? kHome : kAny;
    put(json, "title", columns.title);
    put(json, "file", columns.file);
    put(json, "tag", columns.tag);
    if (filter.state) json["state"] = state_asked_token(*filter.state);
    if (columns.ornaments) json["ornaments"] = true;
    if (filter.scraps == Scraps::asked_for) json["scraps"] = true;
}

// --- reading

// Takes the fields of an object one by one, so that what nobody took is seen at the end.
class Fields {
public:
    explicit Fields(const Json& json) : json_(json) {
        if (!json.is_object()) throw StoredFault("something else stands where what it was asked for should");
    }

    const Json* take(const char* field) {
        const auto found = json_.find(field);
        if (found == json_.end()) return nullptr;
        ++taken_;
        return &*found;
    }

    void take(const char* field, std::optional<std::string>& text) {
        if (const Json* json = take(field)) text = json->get<std::string>();
    }

    void take(const char* field, std::vector<std::string>& texts) {
        if (const Json* json = take(field)) texts = json->get<std::vector<std::string>>();
    }

    template <typename Number, std::enable_if_t<std::is_integral_v<Number>, int> = 0>
    void take(const char* field, std::optional<Number>& number, std::int64_t least, std::int64_t most) {
        const Json* json = take(field);
        if (json == nullptr) return;
        if (!json->is_number_integer())
            throw StoredFault("\"" + std::string(field) + "\" is no number that a term can have");
        const auto value = json->is_number_unsigned() && json->get<std::uint64_t>() > static_cast<std::uint64_t>(most)
                               ? most + 1
                               : json->get<std::int64_t>();
        if (value < least || value > most)
            throw StoredFault("\"" + std::string(field) + "\" is no number that a term can have");
        number = static_cast<Number>(value);
    }

    void take(const char* field, bool& flag) {
        if (const Json* json = take(field)) flag = json->get<bool>();
    }

    bool are_all_taken() const { return taken_ == json_.size(); }

private:
    const Json& json_;
    std::size_t taken_ = 0;
};

// A list of names and notes.
music::NoteSet notes_in(const Json& json, Part part) {
    music::NoteSet all;
    for (const std::string& word : json.get<std::vector<std::string>>()) all = all | anywhere(part, word);
    return all;
}

void take_notes(Fields& fields, const char* field, Part part, std::optional<music::NoteSet>& notes) {
    if (const Json* json = fields.take(field)) notes = notes_in(*json, part);
}

template <typename Value>
Value known(const std::optional<Value>& value) {
    if (!value) throw StoredFault("a word of what it was asked for is unknown");
    return *value;
}

TermRequest::Must must_in(const Json& json) {
    Fields fields(json);
    TermRequest::Must must;
    must.tune = json.at("tune").get<std::string>();
    fields.take("tune");
    if (const Json* day = fields.take("by_date")) must.by_date = base::read_date(day->get<std::string>());
    fields.take("by_lesson", must.by_lesson, 1, syllabus::kMostLessons);
    if (!fields.are_all_taken()) throw StoredFault("a tune that must come is asked for with more than gamut knows");
    return must;
}

void read_filter(Fields& fields, Filter& filter) {
    collection::Selection& columns = filter.columns;
    fields.take("fits", filter.fits);
    fields.take("players", filter.players);
    fields.take("instrument_file", filter.instrument_file);
    if (const Json* id = fields.take("instrument")) {
        const instruments::Instrument* instrument = instruments::find(id->get<std::string>());
        if (instrument == nullptr) throw StoredFault("its instrument is none that gamut knows");
        filter.instrument = instruments::lent(*instrument);
    }
    fields.take("grade", filter.grade, instruments::kEasiestGrade, instruments::kHardestGrade);
    if (const Json* uses = fields.take("uses")) {
        if (!uses->is_array()) throw StoredFault("something else stands where a list should");
        for (const Json& one : *uses) columns.uses.push_back(notes_in(one, Part::uses));
    }
    take_notes(fields, "avoids", Part::avoids, columns.avoids);
    fields.take("rhythm", columns.rhythm);
    fields.take("meter", columns.meter);
    if (const Json* tonic = fields.take("tonic"))
        columns.tonic = known(music::parse_note_name(tonic->get<std::string>())).pitch_class();
    if (const Json* mode = fields.take("mode")) columns.mode = known(music::parse_mode(mode->get<std::string>()));
    take_notes(fields, "starts_on", Part::starts_on, columns.starts_on);
    take_notes(fields, "ends_on", Part::ends_on, columns.ends_on);
    fields.take("span", columns.span, 0, music::kMidiNotes);
    fields.take("top", columns.top, 0, music::kMidiNotes - 1);
    fields.take("bottom", columns.bottom, 0, music::kMidiNotes - 1);
    if (const Json* octave = fields.take("octave")) {
        const std::string word = octave->get<std::string>();
        if (word != kHome && word != kAny) throw StoredFault("a word of what it was asked for is unknown");
        columns.octave = word == kHome ? collection::OctaveRange::home : collection::OctaveRange::any;
    }
    fields.take("title", columns.title);
    fields.take("file", columns.file);
    fields.take("tag", columns.tag);
    if (const Json* state = fields.take("state")) filter.state = known(parse_state_asked(state->get<std::string>()));
    fields.take("ornaments", columns.ornaments);
    bool asks_for_scraps = false;
    fields.take("scraps", asks_for_scraps);
    if (asks_for_scraps) filter.scraps = Scraps::asked_for;
}

TermRequest read(const Json& json) {
    Fields fields(json);
    TermRequest request;
    if (const Json* from = fields.take("from")) request.from = base::read_date(from->get<std::string>());
    if (const Json* on = fields.take("on")) request.on = known(base::parse_weekday(on->get<std::string>()));
    fields.take("lessons", request.lessons, 1, syllabus::kMostLessons);
    std::vector<std::string> breaks;
    fields.take("breaks", breaks);
    for (const std::string& text : breaks) request.breaks.push_back(syllabus::read_break(text));
    fields.take("have", request.have);
    fields.take("notes_every", request.notes_every, 1, syllabus::kMostLessons);
    fields.take("tunes_each", request.tunes_each, 1, syllabus::kMostTunesEach);
    fields.take("steps", request.steps, 0, music::kMidiNotes);
    fields.take("first", request.first);
    if (const Json* musts = fields.take("musts")) {
        if (!musts->is_array()) throw StoredFault("something else stands where a list should");
        for (const Json& must : *musts) request.musts.push_back(must_in(must));
    }
    fields.take("begin", request.begin);
    fields.take("without", request.without);
    fields.take("max_states", request.max_states, 1, static_cast<std::int64_t>(kMostTermStates));
    read_filter(fields, request.filter);
    if (!fields.are_all_taken())
        throw StoredFault("it was asked for with something that this gamut does not know; a newer one kept it");
    return request;
}

}  // namespace

std::string write_request(const TermRequest& request) {
    Json json = Json::object();
    if (request.from) json["from"] = base::to_string(*request.from);
    if (request.on) json["on"] = base::weekday_name(*request.on);
    put(json, "lessons", request.lessons);
    std::vector<std::string> breaks;
    for (const syllabus::DateRange& range : request.breaks) breaks.push_back(syllabus::to_string(range));
    put(json, "breaks", breaks);
    put(json, "have", request.have);
    put(json, "notes_every", request.notes_every);
    put(json, "tunes_each", request.tunes_each);
    put(json, "steps", request.steps);
    put(json, "first", request.first);
    for (const TermRequest::Must& must : request.musts) json["musts"].push_back(write_must(must));
    put(json, "begin", request.begin);
    put(json, "without", request.without);
    put(json, "max_states", request.max_states);
    write_filter(request.filter, json);
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

namespace {

// Runs a reading of a kept text; whatever it cannot read is told the same way.
template <typename Read>
auto read_kept_text(std::string_view text, Read read_json) {
    try {
        return read_json(Json::parse(text));
    } catch (const Json::exception&) {
        throw StoredFault("what it was asked for is no text of a term");
    } catch (const base::DateFault& fault) {
        throw StoredFault(fault.what());
    } catch (const syllabus::TermFault& fault) {
        throw StoredFault(fault.what());
    } catch (const Refused&) {
        throw StoredFault("notes it was asked for with cannot be read");
    }
}

}  // namespace

TermRequest read_request(std::string_view text) {
    return read_kept_text(text, [](const Json& json) {
        return json.is_array() ? read_old_request(json.get<std::vector<std::string>>()) : read(json);
    });
}

Filter read_filter(std::string_view text) {
    return read_kept_text(text, [](const Json& json) {
        Fields fields(json);
        Filter filter;
        read_filter(fields, filter);
        if (!fields.are_all_taken()) throw StoredFault("a filter holds something that this gamut does not know");
        return filter;
    });
}

}  // namespace answers
