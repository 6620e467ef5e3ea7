// Tested by engine_test.cc.
#include "page/engine.h"

#include <algorithm>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <stdexcept>
#include <utility>

#include "abc/mail_residue.h"
#include "answers/evening.h"
#include "answers/fit.h"
#include "answers/follow.h"
#include "answers/instrument_named.h"
#include "answers/next.h"
#include "answers/notes.h"
#include "answers/path.h"
#include "answers/player_named.h"
#include "answers/refusal.h"
#include "answers/reviews.h"
#include "answers/stored_request.h"
#include "answers/together.h"
#include "answers/tune.h"
#include "answers/tunes.h"
#include "answers/tunes_asked.h"
#include "base/date.h"
#include "base/diagnostics.h"
#include "base/source_file.h"
#include "instruments/known.h"
#include "page/bars_json.h"
#include "page/kept_json.h"
#include "page/rungs.h"
#include "reader/stored_file.h"
#include "report/pages/evening_page.h"
#include "report/pages/fit_page.h"
#include "report/pages/follow_page.h"
#include "report/pages/instrument_page.h"
#include "report/pages/listing.h"
#include "report/pages/next_page.h"
#include "report/pages/notes_page.h"
#include "report/pages/path_page.h"
#include "report/pages/review_page.h"
#include "report/pages/together_page.h"
#include "report/pages/tune_page.h"
#include "report/words/goal_words.h"
#include "report/write.h"
#include "syllabus/stored_syllabus.h"

namespace page {

namespace {

using Json = nlohmann::ordered_json;

// For the tables of a proof, in a browser. Source: house choice: a quarter of what the command line takes, since a
// telephone has less.
constexpr std::size_t kMostTableBytes = std::size_t{256} << 20;
constexpr double kMostSeconds = 10;  // that a question may ask a proof to take; house choice, as on the command line

// The question is not one that can be asked: a bug of the face, said so that it is found.
class QuestionFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

std::string text_of(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

template <typename Answer>
std::string told(const Answer& answer) {
    return report::write(report::Format::json, answer, {});
}

std::optional<std::string> words_in(const Json& question, const char* field) {
    return question.contains(field) ? std::optional(question.at(field).get<std::string>()) : std::nullopt;
}

answers::Filter filter_in(const Json& question) {
    answers::Filter filter = answers::read_filter(text_of(question.value("filter", Json::object())));
    if (question.contains("missing")) filter.missing = answers::Lacking{question.at("missing").get<int>(), 0};
    if (question.contains("missing_at_least") && filter.missing)
        filter.missing->at_least = question.at("missing_at_least").get<int>();
    return filter;
}

planner::Limits limits_in(const Json& question) {
    planner::Limits limits;
    limits.max_table_bytes = kMostTableBytes;
    limits.max_seconds = std::min(question.value("max_seconds", kMostSeconds), kMostSeconds);
    return limits;
}

std::shared_ptr<const instruments::Instrument> instrument_in(const Json& question) {
    const auto name = words_in(question, "instrument");
    if (!name) return nullptr;
    return {std::shared_ptr<void>(), &answers::instrument_named(*name)};  // stands in the program for good
}

std::string tunes(const collection::Collection& collection, const Json& question) {
    answers::TunesQuestion asked;
    asked.filter = filter_in(question);
    if (const auto sort = words_in(question, "sort")) {
        const auto known = collection::parse_sort(*sort);
        if (!known) throw QuestionFault("no such order: " + *sort);
        asked.filter.columns.sort = *known;
        asked.is_sorted = true;
    }
    if (question.contains("limit")) asked.filter.columns.limit = question.at("limit").get<std::int64_t>();
    asked.heard = words_in(question, "heard");
    asked.at_start = question.value("at_start", false);
    return told(answers::answer(collection, asked));
}

std::string notes(const collection::Collection& collection, const Json& question) {
    answers::NotesQuestion asked;
    asked.filter = filter_in(question);
    asked.have = words_in(question, "have");
    asked.by_name = question.value("by_name", false);
    asked.percents = question.value("percents", std::vector<int>());
    if (question.contains("best_start")) asked.best_start = question.at("best_start").get<std::int64_t>();
    asked.limits = limits_in(question);
    return told(answers::answer(collection, asked));
}

std::string path(const collection::Collection& collection, const Json& question) {
    answers::PathQuestion asked;
    asked.filter = filter_in(question);
    asked.have = words_in(question, "have");
    asked.by_name = question.value("by_name", false);
    asked.is_brief = question.value("brief", false);
    asked.steps = question.value("steps", std::size_t{0});
    asked.order = words_in(question, "order");
    asked.first = words_in(question, "first");
    asked.avoid = words_in(question, "avoid");
    if (question.contains("best_in")) asked.best_in = question.at("best_in").get<std::size_t>();
    asked.limits = limits_in(question);
    return told(answers::answer(collection, asked));
}

std::string rungs(const collection::Collection& collection, const Json& question) {
    const answers::Filter filter = filter_in(question);
    const answers::TunesAsked asked(collection, filter);
    music::NoteSet have;
    for (const int midi : question.value("pitches", std::vector<int>()))
        if (midi >= 0 && midi < music::kMidiNotes) have.add(midi);
    collection::Selection selection = asked.selection_to_learn();
    selection.nearest_to = have;  // as answers::NotesQuestion chooses settings
    std::vector<music::NoteSet> needed;
    for (const collection::TuneNotes& tune : collection.select_notes(selection).rows) needed.push_back(tune.needed);
    const Rungs found = rungs_of(needed, have);
    Json json{{"version", 1}, {"tunes", found.tunes}, {"open", found.open}, {"rungs", Json::array()}};
    for (const Rung& rung : found.rungs)
        json["rungs"].push_back(
            {{"pitch", rung.midi}, {"have", rung.is_had}, {"uses", rung.uses}, {"opens", rung.opens}});
    json["brackets"] = Json::array();
    for (const Bracket& bracket : found.brackets)
        json["brackets"].push_back({{"pitches", bracket.notes.midi_numbers()}, {"opens", bracket.opens}});
    return text_of(json);
}

std::string tune(const collection::Collection& collection, const Json& question) {
    return told(answers::answer(collection,
                                answers::TuneQuestion{question.at("tune").get<std::string>(), instrument_in(question),
                                                      words_in(question, "have"), question.value("any_ways", false)}));
}

std::string next(const collection::Collection& collection, const Json& question) {
    answers::NextQuestion asked;
    asked.filter = filter_in(question);
    asked.player = question.at("player").get<std::string>();
    asked.filter.asker = asked.player;
    asked.is_short = question.value("short", false);
    return told(answers::answer(collection, asked));
}

std::string again(const collection::Collection& collection, const Json& question) {
    answers::ReviewsQuestion asked;
    asked.filter = filter_in(question);
    asked.player = question.at("player").get<std::string>();
    asked.filter.asker = asked.player;
    asked.today = base::read_date(question.at("today").get<std::string>());
    return told(answers::answer(collection, asked));
}

std::string follow(const collection::Collection& collection, const Json& question) {
    answers::FollowQuestion asked;
    asked.filter = filter_in(question);
    if (asked.filter.scraps != answers::Scraps::asked_for) asked.filter.scraps = answers::Scraps::left_aside;
    asked.first = question.at("tune").get<std::string>();
    if (question.contains("limit")) asked.limit = question.at("limit").get<std::size_t>();
    return told(answers::answer(collection, asked));
}

int within(const Json& question, const char* field, int usual, int least, int most) {
    const int given = question.value(field, usual);
    if (given < least || given > most) throw QuestionFault(std::string(field) + " is out of range");
    return given;
}

std::string evening(const collection::Collection& collection, const Json& question) {
    answers::EveningQuestion asked;
    asked.filter = filter_in(question);
    if (asked.filter.scraps != answers::Scraps::asked_for) asked.filter.scraps = answers::Scraps::left_aside;
    asked.without = question.value("without", std::vector<std::string>());
    asked.goal.minutes = within(question, "minutes", 20, 1, repertoire::kMostMinutes);
    asked.goal.times = within(question, "times", 3, 1, repertoire::kMostTimes);
    asked.goal.in_set = within(question, "in_set", 3, 2, repertoire::kMostInSet);
    if (const auto pace = words_in(question, "pace")) {
        const auto known = repertoire::parse_pace_kind(*pace);
        if (!known) throw QuestionFault("no such pace: " + *pace);
        asked.goal.pace = *known;
    }
    return told(answers::answer(collection, asked));
}

std::string together(const collection::Collection& collection, const Json& question) {
    const answers::TogetherQuestion asked{filter_in(question)};
    if (asked.filter.fits.size() + asked.filter.players.size() < 2)
        throw answers::Refused({answers::Part::players, answers::Reason::two_players});
    return told(answers::answer(collection, asked));
}

std::string fit(const collection::Collection& collection, const Json& question) {
    return told(answers::answer(collection, answers::FitQuestion{filter_in(question)}));
}

std::string instrument(const collection::Collection&, const Json& question) {
    if (const auto name = words_in(question, "instrument"))
        return told(report::InstrumentPage{&answers::instrument_named(*name), std::nullopt});
    report::InstrumentsPage page;
    for (const std::string& id : instruments::ids()) page.instruments.push_back(instruments::find(id));
    return told(page);
}

// What notes a text means, in an instrument's compass where one is given.
std::string meant(const collection::Collection& collection, const Json& question) {
    const answers::Filter filter = filter_in(question);
    const answers::TunesAsked asked(collection, filter);
    return text_of(
        {{"version", 1},
         {"pitches", asked.notes(answers::Part::typed, question.at("notes").get<std::string>()).midi_numbers()}});
}

std::string bars(const collection::Collection& collection, const Json& question) {
    return bars_json(collection, question.at("tune").get<std::string>());
}

std::string odd(const collection::Collection& collection, const Json&) {
    Json json{{"version", 1}, {"odd", Json::array()}};
    for (const collection::FoundOddity& found : collection.oddities())
        json["odd"].push_back({{"title", found.title},
                               {"file", found.file},
                               {"line", found.oddity.line},
                               {"kind", tune::oddity_token(found.oddity.kind)},
                               {"message", found.oddity.message},
                               {"advice", found.oddity.advice}});
    return text_of(json);
}

using Asked = std::string (*)(const collection::Collection&, const Json&);

constexpr std::pair<std::string_view, Asked> kQuestions[] = {
    {"again", again},       {"bars", bars},     {"evening", evening},
    {"fit", fit},           {"follow", follow}, {"instrument", instrument},
    {"meant", meant},       {"next", next},     {"notes", notes},
    {"odd", odd},           {"path", path},     {"rungs", rungs},
    {"together", together}, {"tune", tune},     {"tunes", tunes},
};

std::string fault(const std::string& sentence) { return text_of({{"fault", sentence}}); }

std::string refused(const answers::Refusal& refusal) {
    Json ids = Json::array();
    for (const tune::TuneRecord& record : refusal.tunes) ids.push_back(record.id.value);
    return text_of({{"refused",
                     {{"reason", answers::reason_token(refusal.reason)},
                      {"what", refusal.goal ? report::in_words(*refusal.goal) : refusal.what},
                      {"others", refusal.others},
                      {"pitches", refusal.notes.midi_numbers()},
                      {"ids", std::move(ids)}}}});
}

}  // namespace

std::string Engine::read(std::string_view shown, std::string bytes) {
    Json json{{"tunes", 0}, {"errors", 0}, {"odd", 0}, {"remark", nullptr}};
    if (bytes.empty() || base::looks_binary(bytes)) {
        json["remark"] = bytes.empty() ? "is empty" : "is not a text file";
        return text_of(json);
    }
    const base::SourceFile source = abc::without_residue(base::decode_source(std::string(shown), std::move(bytes)));
    base::Diagnostics diagnostics;
    collection::StoredFile file = reader::stored_file(source, diagnostics);
    file.path = "/" + std::string(shown);
    file.shown = std::string(shown);
    json["tunes"] = file.settings.size();
    json["errors"] = diagnostics.count(base::Severity::error);
    for (const collection::StoredSetting& setting : file.settings)
        json["odd"] = json["odd"].get<int>() + (setting.oddities.empty() ? 0 : 1);
    if (file.settings.empty()) json["remark"] = "holds no tune";
    read_.push_back(std::move(file));
    return text_of(json);
}

void Engine::settle() {
    memory_.take(std::move(read_));
    read_.clear();
}

std::string Engine::keep(std::string_view kept) {
    try {
        memory_.keep(read_kept(kept));
        return "{}";
    } catch (const KeptFault& what) {
        return fault(what.what());
    }
}

std::string Engine::answer(std::string_view text) const {
    try {
        const Json question = Json::parse(text);
        const std::string kind = question.at("kind").get<std::string>();
        for (const auto& [name, ask] : kQuestions)
            if (name == kind) return ask(memory_, question);
        return fault("no such question: " + kind);
    } catch (const answers::Refused& why) {
        return refused(why.refusal());
    } catch (const Json::exception& what) {
        return fault(what.what());
    } catch (const std::exception& what) {
        return fault(what.what());
    }
}

}  // namespace page
