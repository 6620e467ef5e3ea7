// `gamut syllabus NAME`: a kept term after lessons were given or lost, planned again, or taken back.
#include "answers/stored_request.h"
#include "answers/term_change.h"
#include "base/utf8.h"
#include "cli/day_option.h"
#include "cli/kept_term.h"
#include "cli/refusal_words.h"
#include "cli/syllabus_command.h"
#include "library/library.h"
#include "library/players.h"
#include "report/words/words.h"
#include "syllabus/changes.h"
#include "syllabus/stored_syllabus.h"

namespace cli {

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

answers::TermNews SyllabusCommand::news(const Syllabus& kept) const {
    answers::TermNews news;
    news.replans = replans_;
    news.is_sure = is_sure_;
    if (taught_) {
        if (*taught_ < 0 || *taught_ > static_cast<std::int64_t>(kept.lessons.size()))
            throw Misuse("--taught takes a lesson from 0 to " + std::to_string(kept.lessons.size()) + ", not " +
                         std::to_string(*taught_));
        news.taught = static_cast<std::size_t>(*taught_);
    }
    for (const std::string& text : lost_) news.lost.push_back(lessons_named("--lost", text, kept.lessons));
    return news;
}

int SyllabusCommand::change(const syllabus::Name& name, report::SyllabusPage page) {
    const Syllabus before = page.plan;
    const answers::TermRequest asked = answers::read_request(before.asked);
    if (tells_players_ && asked.filter.players.empty())
        throw Misuse("--tell-players: the term was asked for without --for, so it has no players");
    const answers::TermNews said = news(before);
    answers::TermChanged changed =
        answers::change_term(library::Library::open_existing(file_), before,
                             replans_ || !lost_.empty() ? with_instrument(asked) : asked, said);
    for (const answers::Gone& one : changed.gone) page.notices.push_back(told(one));
    tell_left_out(changed.left_out_notes);
    for (const answers::Refusal& refusal : changed.not_found) tell(refusal);
    page.plan = std::move(changed.plan);
    page.changes = syllabus::changes_between(before, page.plan);
    if (is_as_kept(page.plan, before)) {  // nothing is kept, so that what was kept before can still be taken back
        page.plan = before;
    } else {
        if (changed.is_planned) {
            page.plan.revision = before.revision + 1;
            page.plan.planned_on = day_of("--today", today_);
        }
        keep(name, page.plan);
    }
    if (taught_) tell_players(page.plan, page.notices);
    if (is_sure_ && !asked.filter.players.empty())
        page.notices.push_back(
            "What --tell-players wrote down of lessons that were not held stands; gamut player tune NAME forgotten "
            "TITLES and gamut player notes NAME --drop NOTES take it back.");
    return show(page);
}

void SyllabusCommand::tell_players(const Syllabus& plan, std::vector<std::string>& notices) const {
    const answers::ToBeTold told = answers::to_be_told(library::Library::open_existing(file_), plan);
    if (told.begun.empty()) return;
    const std::string times =
        report::counted(static_cast<std::int64_t>(told.begun.size()), "tune", "tunes") + ", counted for each of them";
    if (!tells_players_) {
        notices.push_back("Not written down for the players yet: " + times +
                          "; --tell-players writes that they are learning them and have the new notes.");
        return;
    }
    library::Players players = library::Players::change(file_, cli::today());
    for (const answers::ToBeTold::Begun& one : told.begun)
        players.record(one.player, one.tune, {one.day, tune::PlayerEvent::learning});
    for (const auto& [player, taught] : told.notes) players.add_notes(player, taught);
    players.commit();
    notices.push_back("Written down for the players as learning, from the day of the lesson: " + times +
                      ", and the new notes as had.");
}

}  // namespace cli
