// Tested by term_change_test.cc.
#include "answers/term_change.h"

#include <algorithm>
#include <string>

#include "answers/stored_request.h"
#include "base/invariant.h"
#include "planner/goal_fault.h"
#include "syllabus/lay_out.h"
#include "tune/title.h"

namespace answers {

namespace {

using syllabus::LessonState;
using syllabus::Promise;

Refused lesson_given(Part part, std::size_t lesson, std::size_t taught) {
    return Refused({part, Reason::lesson_given, std::to_string(lesson), {std::to_string(taught)}});
}

// How many lessons, from the first on, stand as given.
std::size_t mark_given(std::vector<syllabus::Lesson>& lessons, const TermNews& news) {
    std::size_t fixed = 0;
    for (std::size_t at = 0; at < lessons.size(); ++at)
        if (lessons[at].state == LessonState::taught) fixed = at + 1;
    if (!news.taught) return fixed;
    if (*news.taught < fixed && !news.is_sure) throw lesson_given(Part::taught, fixed, *news.taught);
    for (std::size_t at = 0; at < lessons.size(); ++at)
        if (lessons[at].state != LessonState::lost)
            lessons[at].state = at < *news.taught ? LessonState::taught : LessonState::planned;
    return *news.taught;
}

// These lessons, and all before them, stand.
TermSoFar lose(std::vector<syllabus::Lesson>& lessons, const TermNews& news, std::size_t& fixed) {
    TermSoFar so_far;
    for (const auto& [first, last] : news.lost) {
        for (std::size_t at = first; at <= last; ++at) {
            if (lessons[at].state == LessonState::taught && !news.is_sure) throw lesson_given(Part::lost, at + 1, 0);
            for (const syllabus::TermTune& tune : lessons[at].tunes) so_far.own[tune.id] = Promise::lost;
            if (lessons[at].notes) so_far.undone.push_back(*lessons[at].notes);
            lessons[at] = {lessons[at].date, LessonState::lost, false, {}, {}, {}};
        }
        if (!news.replans) fixed = std::max(fixed, last + 1);
    }
    for (std::size_t at = 0; at < lessons.size(); ++at)
        for (const syllabus::TermTune& tune : lessons[at].tunes)
            so_far.own.emplace(tune.id, at < fixed || news.replans ? Promise::none : Promise::planned);
    return so_far;
}

music::NoteSet notes_given(const syllabus::Syllabus& plan) {
    music::NoteSet given;
    for (const syllabus::Lesson& lesson : plan.lessons)
        if (lesson.notes && lesson.state == LessonState::taught) given = given | lesson.notes->notes;
    return given;
}

}  // namespace

TermPlanned plan_term(const collection::Collection& collection, const TermRequest& request,
                      std::vector<syllabus::Lesson> lessons, std::size_t fixed, const TermSoFar& so_far) {
    TermCourse made = course_of(collection, request, so_far);
    TermPlanned planned;
    planned.not_found = std::move(made.not_found);
    planned.left_out_notes = std::move(made.left_out_notes);
    if (made.course.tunes.empty() && !so_far.is_planned_again) return planned;
    planned.is_planned = true;
    try {
        planned.plan = syllabus::lay_out(made.course, std::move(lessons), fixed);
    } catch (const planner::GoalFault& fault) {
        Refusal refusal{Part::goal};
        refusal.goal = fault.fault();
        throw Refused(std::move(refusal));
    }
    for (const tune::TuneRecord& record : made.gone)
        planned.plan.unmet.emplace_back(syllabus::FileGone{tune::title_of(record)});
    std::vector<syllabus::Telling>& remarks = planned.plan.remarks;
    const std::vector<syllabus::Telling> first = remarks_on(made);
    remarks.insert(remarks.begin(), first.begin(), first.end());
    return planned;
}

TermChanged change_term(const collection::Collection& collection, const syllabus::Syllabus& kept,
                        const TermRequest& request, const TermNews& news) {
    TermChanged changed;
    changed.plan = kept;
    std::vector<syllabus::Lesson> lessons = kept.lessons;
    std::size_t fixed = mark_given(lessons, news);
    TermSoFar so_far = lose(lessons, news, fixed);
    if (news.lost.empty() && !news.replans) {
        changed.plan.lessons = std::move(lessons);
        return changed;
    }
    if (!news.replans && lessons == kept.lessons) return changed;
    const TermRequest left = for_those_left(request, collection, kept.have, changed.gone);
    so_far.is_planned_again = fixed > 0 || news.replans;
    for (std::size_t at = 0; at < fixed; ++at)
        for (const syllabus::TermTune& tune : lessons[at].tunes) so_far.given.insert(tune.id);
    TermPlanned planned = plan_term(collection, left, std::move(lessons), fixed, so_far);
    INVARIANT(planned.is_planned);  // a lost lesson stands, so `fixed` is above 0
    changed.is_planned = true;
    changed.not_found = std::move(planned.not_found);
    changed.left_out_notes = std::move(planned.left_out_notes);
    syllabus::Syllabus& plan = planned.plan;
    plan.name = kept.name;
    plan.asked = write_request(left);
    if (fixed > 0) {
        if (const music::NoteSet more = plan.have.without(kept.have | notes_given(plan)); !more.empty())
            plan.remarks.emplace_back(syllabus::LearntSince{more});
        plan.have = kept.have;
    }
    plan.revision = kept.revision;
    plan.planned_on = kept.planned_on;
    changed.plan = std::move(plan);
    return changed;
}

ToBeTold to_be_told(const collection::Collection& collection, const syllabus::Syllabus& plan) {
    const std::vector<std::string> names = read_request(plan.asked).filter.players;
    ToBeTold told;
    for (const collection::PlayerRecord& record : collection.players()) {
        if (std::none_of(names.begin(), names.end(), [&](const std::string& name) {
                return tune::fold_player_name(name) == record.player.name.folded;
            }))
            continue;
        for (const syllabus::Lesson& lesson : plan.lessons) {
            if (lesson.state != LessonState::taught) continue;
            if (lesson.notes) told.notes[record.player.id] = told.notes[record.player.id] | lesson.notes->notes;
            for (const syllabus::TermTune& tune : lesson.tunes) {
                const auto said = std::find_if(record.tunes.begin(), record.tunes.end(),
                                               [&](const tune::PlayerTune& one) { return one.tune == tune.id; });
                if (said == record.tunes.end() || tune::can_enter(*said, lesson.date))
                    told.begun.push_back({record.player.id, tune.id, lesson.date});
            }
        }
    }
    return told;
}

}  // namespace answers
