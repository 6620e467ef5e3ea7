// `gamut syllabus NAME`: a kept term after lessons were given or lost, planned again, or taken back.
#include <algorithm>
#include <map>
#include <set>

#include "answers/stored_request.h"
#include "answers/term_course.h"
#include "base/utf8.h"
#include "cli/day_option.h"
#include "cli/kept_term.h"
#include "cli/refusal_words.h"
#include "cli/syllabus_command.h"
#include "library/library.h"
#include "library/players.h"
#include "planner/goal.h"
#include "report/words/words.h"
#include "syllabus/changes.h"
#include "syllabus/lay_out.h"
#include "syllabus/stored_syllabus.h"

namespace cli {

using syllabus::LessonState;
using syllabus::Syllabus;

namespace {

std::string told(const answers::Gone& gone) {
    if (gone.state)
        return "--state " + std::string(answers::state_asked_token(*gone.state)) +
               " is left out: nobody is left whose tunes it could mean.";
    return gone.player == answers::kRemovedPlayer
               ? "A player of the term was removed; it goes on without."
               : "There is no player \"" + gone.player + "\" any longer; the term goes on without.";
}

}  // namespace

int SyllabusCommand::take_back(report::SyllabusPage& page) {
    const base::Date today = day_of("--today", today_);
    // Calendars take the higher revision for the newer, so what is taken back is a new one too.
    const auto before = library::take_back_syllabus(
        file_, kept_->folded,
        [&](const std::string& now, const std::string& text) {
            Syllabus plan = read_kept(file_, {kept_->folded, kept_->name, text});
            plan.revision = read_kept(file_, {kept_->folded, kept_->name, now}).revision + 1;
            plan.planned_on = today;
            return syllabus::write_stored(plan);
        },
        cli::today());
    if (!before) {
        write_notice("gamut: nothing is to be taken back of \"" + base::printable(page.plan.name) + "\"\n");
        return kDoneInPart;
    }
    has_kept_ = true;
    const Syllabus changed = std::move(page.plan);
    page.plan = read_kept(file_, *before);
    page.changes = syllabus::changes_between(changed, page.plan);
    return show(page);
}

// False where no tune can come, which has been said.
bool SyllabusCommand::lay_out(const answers::TermRequest& request, std::vector<syllabus::Lesson> lessons,
                              std::size_t fixed, answers::TermSoFar so_far, Syllabus& plan) const {
    const library::Library library = library::Library::open_existing(file_);
    so_far.is_planned_again = fixed > 0 || replans_;
    for (std::size_t at = 0; at < fixed; ++at)
        for (const syllabus::TermTune& tune : lessons[at].tunes) so_far.given.insert(tune.id);
    answers::TermCourse made = answers::course_of(library, request, so_far);
    syllabus::Course& course = made.course;
    tell_left_out(made.left_out_notes);
    for (const answers::Refusal& refusal : made.not_found) tell(refusal);
    course.promised = std::move(so_far.own);
    if (course.tunes.empty() && !so_far.is_planned_again) {
        write_notice("gamut: no tune passes the filter; nothing is planned\n");
        return false;
    }
    try {
        plan = syllabus::lay_out(course, std::move(lessons), fixed);
    } catch (const planner::GoalFault& fault) {
        throw Misuse(fault.what());
    }
    for (const tune::TuneRecord& record : made.gone)
        plan.unmet.emplace_back(syllabus::FileGone{tune::title_of(record)});
    const std::vector<syllabus::Telling> remarks = answers::remarks_on(made);
    plan.remarks.insert(plan.remarks.begin(), remarks.begin(), remarks.end());
    return true;
}

// Marks the lessons that were given; how many lessons, from the first on, stand for that.
std::size_t SyllabusCommand::mark_given(std::vector<syllabus::Lesson>& lessons) const {
    std::size_t fixed = 0;
    for (std::size_t at = 0; at < lessons.size(); ++at)
        if (lessons[at].state == LessonState::taught) fixed = at + 1;
    if (!taught_) return fixed;
    if (*taught_ < 0 || *taught_ > static_cast<std::int64_t>(lessons.size()))
        throw Misuse("--taught takes a lesson from 0 to " + std::to_string(lessons.size()) + ", not " +
                     std::to_string(*taught_));
    const auto taught = static_cast<std::size_t>(*taught_);
    if (taught < fixed && !is_sure_)
        throw Misuse("lesson " + std::to_string(fixed) + " was given; --yes says that it was not" +
                     (taught == 0 ? "" : ", nor any after lesson " + std::to_string(taught)));
    for (std::size_t at = 0; at < lessons.size(); ++at)
        if (lessons[at].state != LessonState::lost)
            lessons[at].state = at < taught ? LessonState::taught : LessonState::planned;
    return taught;
}

// These lessons, and all before them, stand.
answers::TermSoFar SyllabusCommand::lose(std::vector<syllabus::Lesson>& lessons, std::size_t& fixed) const {
    constexpr int kNothing = 0, kLater = 1, kLost = 2;  // see syllabus::Piece::promised
    answers::TermSoFar so_far;
    for (const std::string& text : lost_) {
        const auto [first, last] = lessons_named("--lost", text, lessons);
        for (std::size_t at = first; at <= last; ++at) {
            if (lessons[at].state == LessonState::taught && !is_sure_)
                throw Misuse("lesson " + std::to_string(at + 1) +
                             " was given; --yes says that it was not held after all, and what it held moves on");
            for (const syllabus::TermTune& tune : lessons[at].tunes) so_far.own[tune.id] = kLost;
            if (lessons[at].notes) so_far.undone.push_back(*lessons[at].notes);
            lessons[at] = {lessons[at].date, LessonState::lost, false, {}, {}, {}};
        }
        if (!replans_) fixed = std::max(fixed, last + 1);
    }
    for (std::size_t at = 0; at < lessons.size(); ++at)
        for (const syllabus::TermTune& tune : lessons[at].tunes)
            so_far.own.emplace(tune.id, at < fixed || replans_ ? kNothing : kLater);
    return so_far;
}

int SyllabusCommand::change(const syllabus::Name& name, report::SyllabusPage page) {
    const Syllabus before = page.plan;
    if (tells_players_ && answers::read_request(before.asked).filter.players.empty())
        throw Misuse("--tell-players: the term was asked for without --for, so it has no players");
    std::vector<syllabus::Lesson> lessons = before.lessons;
    std::size_t fixed = mark_given(lessons);
    answers::TermSoFar so_far = lose(lessons, fixed);
    if (lost_.empty() && !replans_) {
        page.plan.lessons = std::move(lessons);
    } else if (replans_ || lessons != before.lessons) {
        Syllabus plan;
        std::vector<answers::Gone> gone;
        const answers::TermRequest request =
            answers::for_those_left(with_instrument(answers::read_request(before.asked)),
                                    library::Library::open_existing(file_), before.have, gone);
        for (const answers::Gone& one : gone) page.notices.push_back(told(one));
        lay_out(request, std::move(lessons), fixed, std::move(so_far), plan);
        plan.name = before.name;
        plan.asked = answers::write_request(request);
        music::NoteSet given;
        for (const syllabus::Lesson& lesson : plan.lessons)
            if (lesson.notes && lesson.state == LessonState::taught) given = given | lesson.notes->notes;
        if (const music::NoteSet more = plan.have.without(before.have | given); fixed > 0 && !more.empty())
            plan.remarks.emplace_back(syllabus::LearntSince{more});
        if (fixed > 0) plan.have = before.have;
        page.plan = std::move(plan);
    }
    page.changes = syllabus::changes_between(before, page.plan);
    if (is_as_kept(page.plan, before)) {  // nothing is kept, so that what was kept before can still be taken back
        page.plan = before;
    } else {
        if (replans_ || !lost_.empty()) {
            page.plan.revision = before.revision + 1;
            page.plan.planned_on = day_of("--today", today_);
        }
        keep(name, page.plan);
    }
    tell_players(page.plan, page.notices);
    if (is_sure_ && !answers::read_request(before.asked).filter.players.empty())
        page.notices.push_back(
            "What --tell-players wrote down of lessons that were not held stands; gamut player tune NAME forgotten "
            "TITLES and gamut player notes NAME --drop NOTES take it back.");
    return show(page);
}

// What was given, to the players of the term: they are learning its tunes from the day of the lesson on, and have its
// notes.
void SyllabusCommand::tell_players(const Syllabus& plan, std::vector<std::string>& notices) const {
    if (!taught_) return;
    const std::vector<std::string> names = answers::read_request(plan.asked).filter.players;
    struct Told {
        tune::PlayerId player;
        tune::TuneId tune;
        base::Date day;
    };
    std::vector<Told> told;
    std::map<tune::PlayerId, music::NoteSet> notes;
    for (const collection::PlayerRecord& record : library::Library::open_existing(file_).players()) {
        if (std::none_of(names.begin(), names.end(), [&](const std::string& name) {
                return tune::fold_player_name(name) == record.player.name.folded;
            }))
            continue;
        for (const syllabus::Lesson& lesson : plan.lessons) {
            if (lesson.notes && lesson.state == LessonState::taught)
                notes[record.player.id] = notes[record.player.id] | lesson.notes->notes;
            for (const syllabus::TermTune& tune : lesson.tunes) {
                const auto said = std::find_if(record.tunes.begin(), record.tunes.end(),
                                               [&](const tune::PlayerTune& one) { return one.tune == tune.id; });
                if (lesson.state == LessonState::taught &&
                    (said == record.tunes.end() || tune::can_enter(*said, lesson.date)))
                    told.push_back({record.player.id, tune.id, lesson.date});
            }
        }
    }
    if (told.empty()) return;
    const std::string times =
        report::counted(static_cast<std::int64_t>(told.size()), "tune", "tunes") + ", counted for each of them";
    if (!tells_players_) {
        notices.push_back("Not written down for the players yet: " + times +
                          "; --tell-players writes that they are learning them and have the new notes.");
        return;
    }
    library::Players players = library::Players::change(file_, cli::today());
    for (const Told& one : told) players.record(one.player, one.tune, {one.day, tune::PlayerEvent::learning});
    for (const auto& [player, taught] : notes) players.add_notes(player, taught);
    players.commit();
    notices.push_back("Written down for the players as learning, from the day of the lesson: " + times +
                      ", and the new notes as had.");
}

}  // namespace cli
