// The shapes `syllabus` and `syllabi` of schema/output.md.
#include <algorithm>

#include "answers/stored_request.h"
#include "report/pages/syllabus_page.h"
#include "report/words/json.h"
#include "report/words/telling_words.h"
#include "report/words/term_options.h"
#include "report/words/words.h"

namespace report {

namespace {

using syllabus::Lesson;
using syllabus::Syllabus;

std::string_view use_token(syllabus::Use use) {
    return use == syllabus::Use::seldom ? "seldom" : use == syllabus::Use::often ? "often" : "none";
}

Json tunes_json(const std::vector<syllabus::TermTune>& tunes) {
    Json json = Json::array();
    for (const syllabus::TermTune& tune : tunes)
        json.push_back({{"id", tune.id.value},
                        {"title", tune.title},
                        {"rhythm", tune.rhythm.empty() ? Json(nullptr) : Json(tune.rhythm)}});
    return json;
}

Json lesson_json(std::size_t number, const Lesson& lesson) {
    Json json{{"lesson", number},
              {"date", base::to_string(lesson.date)},
              {"state", syllabus::state_token(lesson.state)},
              {"nothing_new", lesson.brings_nothing()},
              {"new_notes", Json::array()},
              {"opens", nullptr},
              {"learners", Json::array()},
              {"new_tunes", Json::array()},
              {"again", tunes_json(lesson.again)}};
    if (lesson.notes) {
        json["new_notes"] = note_names(lesson.notes->notes);
        json["opens"] = lesson.notes->opens;
        json["learners"] = lesson.notes->learners;
    }
    for (const syllabus::TermTune& tune : lesson.tunes)
        json["new_tunes"].push_back({{"id", tune.id.value},
                                     {"title", tune.title},
                                     {"rhythm", tune.rhythm.empty() ? Json(nullptr) : Json(tune.rhythm)},
                                     {"notes", note_names(tune.needed)},
                                     {"use", use_token(tune.use)},
                                     {"times", tune.times},
                                     {"strong", tune.strong},
                                     {"hardness", tune.hardness}});
    return json;
}

Json changes_json(const std::vector<syllabus::Change>& changes) {
    Json json = Json::array();
    for (const syllabus::Change& change : changes)
        json.push_back({{"lesson", change.lesson + 1},
                        {"before", change.before ? lesson_json(change.lesson + 1, *change.before) : Json(nullptr)},
                        {"after", change.after ? lesson_json(change.lesson + 1, *change.after) : Json(nullptr)}});
    return json;
}

Json cost_json(const syllabus::Cost& cost) {
    Json json;
    for (std::size_t at = 0; at < syllabus::kCriteria; ++at) {
        const auto criterion = static_cast<syllabus::Criterion>(at);
        std::string name(syllabus::criterion_token(criterion));
        for (char& c : name)
            if (c == '-') c = '_';
        json[name] = cost[criterion];
    }
    return json;
}

}  // namespace

std::string as_json(const SyllabusPage& page) {
    const Syllabus& plan = page.plan;
    Json json;
    json["version"] = 1;
    json["name"] = plan.name;
    json["revision"] = plan.revision;
    json["planned_on"] = base::to_string(plan.planned_on);
    json["asked"] = as_options(answers::read_request(plan.asked));
    json["have"] = note_names(plan.have);
    json["lessons"] = Json::array();
    for (std::size_t at = 0; at < plan.lessons.size(); ++at)
        json["lessons"].push_back(lesson_json(at + 1, plan.lessons[at]));
    json["closing"] = Json::array();
    for (const syllabus::ClosingSet& set : plan.closing)
        json["closing"].push_back({{"rhythm", set.rhythm.empty() ? Json(nullptr) : Json(set.rhythm)},
                                   {"tunes", tunes_json(set.tunes)},
                                   {"seconds", set.seconds}});
    json["unmet"] = in_words(plan.unmet);
    json["remarks"] = in_words(plan.remarks);
    json["notices"] = page.notices;
    json["cost"] = cost_json(plan.outcome.cost);
    json["lower_bound"] = cost_json(plan.outcome.bound);
    json["proof"] = plan.outcome.cost == plan.outcome.bound ? "optimal" : "gap";
    json["order_proof"] = plan.outcome.path_is_proven ? "optimal" : "gap";
    json["states"] = plan.outcome.states;
    if (page.changes) json["changes"] = changes_json(*page.changes);
    return finish(json);
}

std::string as_json(const MissedPage& page) {
    const auto& [plan, first, last] = page;
    Json json;
    json["version"] = 1;
    json["name"] = plan.name;
    json["missed"] = Json::array();
    for (std::size_t at = first; at <= last && at < plan.lessons.size(); ++at)
        json["missed"].push_back(lesson_json(at + 1, plan.lessons[at]));
    return finish(json);
}

std::string as_json(const SyllabiPage& page) {
    Json json;
    json["version"] = 1;
    json["syllabi"] = Json::array();
    for (const Syllabus& plan : page.plans) {
        const auto in = [&plan](syllabus::LessonState state) {
            return std::count_if(plan.lessons.begin(), plan.lessons.end(),
                                 [state](const Lesson& lesson) { return lesson.state == state; });
        };
        json["syllabi"].push_back({{"name", plan.name},
                                   {"lessons", plan.lessons.size()},
                                   {"taught", in(syllabus::LessonState::taught)},
                                   {"lost", in(syllabus::LessonState::lost)},
                                   {"first", base::to_string(plan.lessons.front().date)},
                                   {"last", base::to_string(plan.lessons.back().date)}});
    }
    return finish(json);
}

std::string as_json(const SyllabusComparison& comparison) {
    Json json;
    json["version"] = 1;
    json["one"] = comparison.one.name;
    json["other"] = comparison.other.name;
    json["changes"] = changes_json(syllabus::changes_between(comparison.one, comparison.other));
    return finish(json);
}

}  // namespace report
