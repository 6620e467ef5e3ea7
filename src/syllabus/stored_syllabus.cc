// Tested by stored_syllabus_test.cc.
#include "syllabus/stored_syllabus.h"

#include "syllabus/stored_telling.h"
#include "syllabus/stored_values.h"

namespace syllabus {

namespace {

// Raised when the text changes its shape; an older one is then still read. 1 did not have all criteria, 2 told in
// sentences.
constexpr int kStoredVersion = 3;

Json write_cost(const Cost& cost) {
    Json json;
    for (std::size_t at = 0; at < kCriteria; ++at) {
        const auto criterion = static_cast<Criterion>(at);
        json[std::string(criterion_token(criterion))] = cost[criterion];
    }
    return json;
}

Cost read_cost(const Json& json, bool has_all) {
    Cost cost;
    for (std::size_t at = 0; at < kCriteria; ++at) {
        const auto criterion = static_cast<Criterion>(at);
        const std::string token(criterion_token(criterion));
        if (has_all || json.contains(token)) cost[criterion] = whole<std::int64_t>(json.at(token));
    }
    return cost;
}

Json write_tune(const TermTune& tune) {
    return {{"id", tune.id.value},
            {"title", tune.title},
            {"rhythm", tune.rhythm},
            {"needed", write_notes(tune.needed)},
            {"use", static_cast<int>(tune.use)},
            {"times", tune.times},
            {"strong", tune.strong},
            {"hardness", tune.hardness},
            {"seconds", tune.seconds}};
}

TermTune read_tune(const Json& json) {
    const int use = whole<int>(json.at("use"));
    if (use < 0 || use > static_cast<int>(Use::often)) throw StoredFault("a use is unknown");
    return {{whole<std::int64_t>(json.at("id"))},
            json.at("title").get<std::string>(),
            json.at("rhythm").get<std::string>(),
            read_notes(json.at("needed")),
            static_cast<Use>(use),
            whole<int>(json.at("times")),
            whole<int>(json.at("strong")),
            whole<int>(json.at("hardness")),
            whole<int>(json.at("seconds"))};
}

Json write_tunes(const std::vector<TermTune>& tunes) {
    Json json = Json::array();
    for (const TermTune& tune : tunes) json.push_back(write_tune(tune));
    return json;
}

std::vector<TermTune> read_tunes(const Json& json) {
    std::vector<TermTune> tunes;
    for (const Json& tune : list(json)) tunes.push_back(read_tune(tune));
    return tunes;
}

Json write_lesson(const Lesson& lesson) {
    Json json{{"date", base::to_string(lesson.date)},    {"state", state_token(lesson.state)},
              {"only_goes_over", lesson.only_goes_over}, {"notes", nullptr},
              {"tunes", write_tunes(lesson.tunes)},      {"again", write_tunes(lesson.again)}};
    if (lesson.notes)
        json["notes"] = {{"notes", write_notes(lesson.notes->notes)},
                         {"opens", lesson.notes->opens},
                         {"learners", lesson.notes->learners}};
    return json;
}

Lesson read_lesson(const Json& json) {
    const auto state = parse_state(json.at("state").get<std::string>());
    if (!state) throw StoredFault("a lesson is in no known state");
    Lesson lesson{base::read_date(json.at("date").get<std::string>()),
                  *state,
                  json.at("only_goes_over").get<bool>(),
                  std::nullopt,
                  read_tunes(json.at("tunes")),
                  read_tunes(json.at("again"))};
    if (const Json& notes = json.at("notes"); !notes.is_null())
        lesson.notes = NewNotes{read_notes(notes.at("notes")), whole<std::int64_t>(notes.at("opens")),
                                notes.at("learners").get<std::vector<std::string>>()};
    return lesson;
}

Syllabus read(const Json& json) {
    const int version = whole<int>(json.at("stored"));
    if (version < 1 || version > kStoredVersion) throw StoredFault("it was written by a newer gamut");
    Syllabus syllabus;
    syllabus.name = json.at("name").get<std::string>();
    syllabus.revision = whole<std::int64_t>(json.at("revision"));
    syllabus.planned_on = base::read_date(json.at("planned_on").get<std::string>());
    syllabus.asked = json.at("asked").dump();
    syllabus.have = read_notes(json.at("have"));
    for (const Json& lesson : list(json.at("lessons"))) syllabus.lessons.push_back(read_lesson(lesson));
    for (const Json& set : list(json.at("closing")))
        syllabus.closing.push_back(
            {set.at("rhythm").get<std::string>(), read_tunes(set.at("tunes")), whole<int>(set.at("seconds"))});
    syllabus.unmet = read_tellings(json.at("unmet"));
    syllabus.remarks = read_tellings(json.at("remarks"));
    const Json& outcome = json.at("outcome");
    const bool has_all = version >= 2;
    syllabus.outcome = {read_cost(outcome.at("cost"), has_all), read_cost(outcome.at("bound"), has_all),
                        whole<std::size_t>(outcome.at("states")), whole<std::size_t>(outcome.at("steps_possible")),
                        outcome.at("path_is_proven").get<bool>()};
    return syllabus;
}

}  // namespace

std::string write_stored(const Syllabus& syllabus) {
    Json json;
    json["stored"] = kStoredVersion;
    json["name"] = syllabus.name;
    json["revision"] = syllabus.revision;
    json["planned_on"] = base::to_string(syllabus.planned_on);
    json["asked"] = Json::parse(syllabus.asked);
    json["have"] = write_notes(syllabus.have);
    json["lessons"] = Json::array();
    for (const Lesson& lesson : syllabus.lessons) json["lessons"].push_back(write_lesson(lesson));
    json["closing"] = Json::array();
    for (const ClosingSet& set : syllabus.closing)
        json["closing"].push_back(
            {{"rhythm", set.rhythm}, {"tunes", write_tunes(set.tunes)}, {"seconds", set.seconds}});
    json["unmet"] = write_tellings(syllabus.unmet);
    json["remarks"] = write_tellings(syllabus.remarks);
    json["outcome"] = {{"cost", write_cost(syllabus.outcome.cost)},
                       {"bound", write_cost(syllabus.outcome.bound)},
                       {"states", syllabus.outcome.states},
                       {"steps_possible", syllabus.outcome.steps_possible},
                       {"path_is_proven", syllabus.outcome.path_is_proven}};
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Syllabus read_stored(std::string_view text) {
    try {
        return read(Json::parse(text));
    } catch (const Json::exception&) {
        throw StoredFault("it is no text of a term");
    } catch (const base::DateFault& fault) {
        throw StoredFault(fault.what());
    }
}

}  // namespace syllabus
