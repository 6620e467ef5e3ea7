// `gamut syllabus`: a dated term, planned, shown, given and planned again.
#include <algorithm>
#include <charconv>
#include <map>
#include <set>

#include "answers/stored_request.h"
#include "answers/term_course.h"
#include "base/failure.h"
#include "base/utf8.h"
#include "cli/day_option.h"
#include "cli/default_words.h"
#include "cli/kept_term.h"
#include "cli/refusal_words.h"
#include "cli/shared_options.h"
#include "cli/syllabus_command.h"
#include "cli/write.h"
#include "library/library.h"
#include "library/syllabi.h"
#include "report/pages/syllabus_page.h"
#include "report/words/telling_words.h"
#include "report/words/words.h"
#include "syllabus/changes.h"
#include "syllabus/name.h"
#include "syllabus/stored_syllabus.h"

namespace cli {

namespace {

using syllabus::Syllabus;

constexpr const char* kKept = "A term that is kept";
constexpr const char* kShape = "How it is shown";
constexpr std::int64_t kLessonMinutes = 60;  // Source: house choice

syllabus::Name name_of(const std::string& text) {
    try {
        return syllabus::read_name(text);
    } catch (const syllabus::NameFault& fault) {
        throw Misuse(fault.what());
    }
}

[[noreturn]] void refuse_to_replace(const std::string& name) {
    throw Misuse("a term called \"" + name +
                 "\" is kept already and is not the same; give another name, --replace it, or --replan what was not "
                 "given yet");
}

bool brings_something(const Syllabus& plan) {
    return std::any_of(plan.lessons.begin(), plan.lessons.end(),
                       [](const syllabus::Lesson& lesson) { return !lesson.tunes.empty(); });
}

}  // namespace

void SyllabusCommand::add_to(CLI::App& command) {
    command.add_option("NAME", name_, "what the term is called; without it those that are kept are listed");
    request_.add_to(command, library_);
    command.add_flag("--replace", replaces_, "plan it anew although the name is in use; what was given is forgotten")
        ->group(kKept);
    command.add_option("--taught", taught_, "lessons 1 to N were given and stay as they are; 0: none was")
        ->type_name("N")
        ->group(kKept);
    command
        .add_option("--lost", lost_,
                    "this lesson, or that of this day, is not held; what it held moves on, lessons before it stay")
        ->type_name("LESSON")
        ->group(kKept)
        ->allow_extra_args(false);
    command
        .add_flag("--tell-players", tells_players_,
                  "with --taught: the players of the term are learning the tunes of these lessons, and have the notes")
        ->group(kKept);
    command.add_flag("--replan", replans_, "plan what was not given yet anew, from the library as it is")->group(kKept);
    command.add_option("--missed", missed_, "what was done in these lessons, on one line: 3, or 3-4")
        ->type_name("LESSON")
        ->group(kKept);
    command.add_option("--compare", compared_, "beside another term, lesson by lesson")
        ->type_name("NAME")
        ->group(kKept);
    command.add_option("--again-from", again_from_, "the same for another term that begins on this day; needs --as")
        ->type_name("DATE")
        ->group(kKept);
    command.add_option("--as", as_, "what the other term is called")->type_name("NAME")->group(kKept);
    command.add_flag("--forget", forgets_, "forget it for good; needs --yes")->group(kKept);
    command.add_flag("--take-back", takes_back_, "as it was before the last change; once")->group(kKept);
    command.add_flag("--yes", is_sure_, "yes, forget it, or lose a lesson that was given")->group(kKept);
    command.add_option("--today", today_, "the day of planning, as calendars are told (default: by the clock)")
        ->type_name("DATE")
        ->group(kKept);
    CLI::Option* ics = command.add_flag("--ics", is_calendar_, "as iCalendar, a lesson an event")->group(kShape);
    command.add_option("--at", at_, "with --ics: local time of day, such as 19:30; else all day")
        ->type_name("TIME")
        ->group(kShape)
        ->needs(ics);
    command
        .add_option("--for-minutes", lasts_,
                    "with --at: how long a lesson is, in minutes" + default_words(kLessonMinutes))
        ->type_name("N")
        ->group(kShape)
        ->needs(ics);
    command.add_option("--output", output_, "write this new file, instead of to the terminal")
        ->type_name("FILE")
        ->group(kShape);
    add_format(command, format_);
    command.footer(
        "Example:  gamut syllabus Tuesdays --from 2027-01-12 --on tuesday --lessons 8 --break 2027-02-16 --have "
        "\"G:major&D:major A3..B5\"\nWhat is best is judged in an order of criteria; the answer names them and says "
        "whether anything better exists.\n"
        "By common practice, no source: two tunes that use a new note come before the next, first one where it is "
        "struck at most 3 times, at most once of them on a strong beat, then one where it comes more often; no third "
        "tune of a rhythm running; nothing new in the last lesson, nor in the first after more than 14 days; every "
        "tune again in the next lesson and once more 14 to 21 days after it was new, as far as the term goes on.\n"
        "Points of hardness of a tune: one for a range over an octave, one for a leap of a minor sixth or more, one "
        "for "
        "more than 9 different bars and one more for more than 14.");
}

[[noreturn]] void refuse_unknown(const std::filesystem::path& library, const syllabus::Name& name) {
    answers::Refusal refusal{answers::Part::term, answers::Reason::unknown_term, name.text};
    for (const library::KeptSyllabus& kept : library::kept_syllabi(library)) refusal.others.push_back(kept.name);
    throw answers::Refused(std::move(refusal));
}

std::optional<report::ClockTime> SyllabusCommand::time() const {
    if (!at_) {
        if (lasts_) throw Misuse("--for-minutes needs --at TIME: from when?");
        return std::nullopt;
    }
    const bool are_digits = at_->find_first_not_of("0123456789:") == std::string::npos;
    const auto hours =
        are_digits && at_->size() == 5 && (*at_)[2] == ':' ? whole_number(at_->substr(0, 2)) : std::nullopt;
    const auto minutes = hours ? whole_number(at_->substr(3)) : std::nullopt;
    if (!hours || !minutes || *hours < 0 || *hours > 23 || *minutes < 0 || *minutes > 59)
        throw Misuse("--at: \"" + *at_ + "\" is no time of day; write hours and minutes, such as 19:30");
    const std::int64_t lasts = lasts_.value_or(kLessonMinutes);
    if (lasts < 1 || lasts > 24 * 60) throw Misuse("--for-minutes takes a whole number from 1 to 1440");
    return report::ClockTime{static_cast<int>(*hours * 60 + *minutes), static_cast<int>(lasts)};
}

void SyllabusCommand::check() const {
    const int actions = (forgets_ ? 1 : 0) + (takes_back_ ? 1 : 0) + (compared_ ? 1 : 0) + (again_from_ ? 1 : 0) +
                        (missed_ ? 1 : 0) + (taught_ || !lost_.empty() || replans_ ? 1 : 0);
    const bool plans = request_.is_given();
    if (!name_ && (actions > 0 || plans)) throw Misuse("which term? gamut syllabus NAME");
    if (actions > 1)
        throw Misuse("one thing at a time: forget, take back, compare, again, missed, or taught with lost and replan");
    if (plans && actions > 0 && !again_from_)
        throw Misuse(
            "--from, --for and what else plans a term make a new one; of one that is kept this is asked without them");
    if (again_from_.has_value() != as_.has_value()) throw Misuse("--again-from DATE and --as NAME go together");
    if (tells_players_ && !taught_) throw Misuse("--tell-players goes with --taught N: which lessons were given?");
    if (replaces_ && !plans && !again_from_) throw Misuse("--replace needs what to plan: --from DATE and the notes");
    if (is_calendar_ && format_.wanted() != report::Format::text)
        throw Misuse("--ics, --json, --csv and --html: one of them");
    if (is_calendar_ && (!name_ || compared_ || missed_ || forgets_)) throw Misuse("--ics shows one term");
}

int SyllabusCommand::run() {
    check();
    time();  // a word that is no time is told first
    file_ = library_file(library_);
    if (output_) to_ = std::make_unique<NewFile>(*output_, NewFile::For::owner);  // before anything is kept
    if (!name_) return list();
    const syllabus::Name name = name_of(*name_);
    if (again_from_) return again(name);
    if (request_.is_given()) return plan(name, request_.request());
    kept_ = library::kept_syllabus(file_, name.folded);
    if (!kept_) refuse_unknown(file_, name);
    if (forgets_) return forget();
    report::SyllabusPage page;
    page.plan = read_kept(file_, *kept_);
    if (takes_back_) return take_back(page);
    if (compared_) return compare(page.plan);
    if (missed_) return tell_missed(page.plan);
    if (taught_ || !lost_.empty() || replans_) return change(name, std::move(page));
    return show(page);
}

int SyllabusCommand::list() const {
    std::vector<Syllabus> plans;
    bool are_all_whole = true;
    for (const library::KeptSyllabus& kept : library::kept_syllabi(file_)) {
        try {
            plans.push_back(read_kept(file_, kept));
        } catch (const base::Failure& damaged) {
            write_notice("gamut: " + base::printable(damaged.what()) + "; left out\n");
            are_all_whole = false;
        }
    }
    write(report::SyllabiPage{std::move(plans)});
    return are_all_whole ? kDone : kDoneInPart;
}

// One that is damaged can be forgotten too.
int SyllabusCommand::forget() {
    std::string what = "\"" + kept_->name + "\"";
    try {
        const Syllabus plan = read_kept(file_, *kept_);
        what +=
            ", " + std::to_string(plan.lessons.size()) + " lessons from " + base::to_string(plan.lessons.front().date);
    } catch (const base::Failure&) {
        what += ", which is damaged";
    }
    if (!is_sure_) throw Misuse("--forget " + what + ": add --yes to forget it for good");
    library::forget_syllabus(file_, kept_->folded, cli::today());
    has_kept_ = true;
    write_answer("Forgotten: " + base::printable(what) + ".\n");
    return kDone;
}

int SyllabusCommand::compare(const Syllabus& plan) const {
    const syllabus::Name other = name_of(*compared_);
    const auto kept = library::kept_syllabus(file_, other.folded);
    if (!kept) refuse_unknown(file_, other);
    const report::SyllabusComparison comparison{plan, read_kept(file_, *kept)};
    write(comparison);
    return kDone;
}

int SyllabusCommand::tell_missed(const Syllabus& plan) const {
    const auto [first, last] = lessons_named("--missed", *missed_, plan.lessons);
    write(report::MissedPage{plan, first, last});
    return kDone;
}

int SyllabusCommand::again(const syllabus::Name& name) {
    const auto kept = library::kept_syllabus(file_, name.folded);
    if (!kept) refuse_unknown(file_, name);
    const base::Date from = date_of("--again-from", *again_from_);
    const answers::TermRequest before = answers::read_request(read_kept(file_, *kept).asked);
    return plan(name_of(*as_), answers::again_from(before, from, request_.request()));
}

int SyllabusCommand::plan(const syllabus::Name& name, const answers::TermRequest& typed) {
    if (!typed.from) throw Misuse("a term needs --from DATE: when does it begin?");
    kept_ = library::kept_syllabus(file_, name.folded);
    std::optional<Syllabus> before;
    try {
        if (kept_) before = read_kept(file_, *kept_);
    } catch (const base::Failure&) {
        if (!replaces_) throw;
    }
    report::SyllabusPage page;
    std::vector<syllabus::Lesson> lessons = answers::lessons_of(typed);
    page.notices = told_of_dates(typed, lessons);
    tell_classes(library::Library::open_existing(file_), typed.filter.players);
    const answers::TermRequest request =
        answers::with_ids(with_instrument(typed), library::Library::open_existing(file_));
    const std::string asked = answers::write_request(request);
    const bool is_said_again = before && before->asked == asked;
    if (before && !is_said_again && !replaces_) refuse_to_replace(before->name);
    answers::TermPlanned planned =
        answers::plan_term(library::Library::open_existing(file_), request, std::move(lessons), 0, {});
    tell_left_out(planned.left_out_notes);
    for (const answers::Refusal& refusal : planned.not_found) tell(refusal);
    if (!planned.is_planned) {
        write_notice("gamut: no tune passes the filter; nothing is planned\n");
        return kDoneInPart;
    }
    page.plan = std::move(planned.plan);
    page.plan.name = name.text;
    page.plan.planned_on = day_of("--today", today_);
    page.plan.asked = asked;
    if (!brings_something(page.plan)) {
        for (const syllabus::Telling& unmet : page.plan.unmet)
            write_notice("gamut: " + base::printable(report::in_words(unmet)) + "\n");
        write_notice(
            "gamut: nothing new can come in this term: no tune fits the notes that are there or could come, or no "
            "lesson has room for one; nothing is kept\n");
        return kDoneInPart;
    }
    if (is_said_again && is_as_kept(page.plan, *before)) {
        page.plan = *before;
        return show(page);
    }
    if (before) {
        if (!replaces_) refuse_to_replace(before->name);
        page.plan.revision = before->revision + 1;  // calendars take the higher for the newer
    }
    keep(name, page.plan);
    return show(page);
}

void SyllabusCommand::keep(const syllabus::Name& name, const Syllabus& plan) {
    const auto instead_of = kept_ ? std::optional(kept_->text) : std::nullopt;
    if (!library::keep_syllabus(file_, {name.folded, plan.name, syllabus::write_stored(plan)}, instead_of,
                                cli::today()))
        throw base::Failure("keep", "the term \"" + plan.name + "\"",
                            "it was changed by another program meanwhile; nothing is kept, please try again");
    has_kept_ = true;
}

report::SyllabusPage SyllabusCommand::with_titles(report::SyllabusPage page) const {
    const library::Library library = library::Library::open_existing(file_);
    for (const tune::TuneId id : answers::tunes_named_in(answers::read_request(page.plan.asked)))
        if (const auto record = library.tune_by_id(id)) page.titles[id] = tune::title_of(*record);
    return page;
}

int SyllabusCommand::show(const report::SyllabusPage& page) const {
    if (is_calendar_)
        write_calendar(page.plan);
    else
        write(with_titles(page));
    if (is_calendar_ || format_.csv)
        for (const std::string& sentence : page.notices) write_notice("gamut: " + base::printable(sentence) + "\n");
    if (is_calendar_ || format_.csv)
        for (const syllabus::Telling& unmet : page.plan.unmet)
            write_notice("gamut: " + base::printable(report::in_words(unmet)) + "\n");
    return page.plan.unmet.empty() ? kDone : kDoneInPart;
}

void SyllabusCommand::write_calendar(const Syllabus& plan) const {
    const std::string calendar = report::syllabus_calendar(plan, time());
    if (to_)
        to_->write(calendar);
    else
        write_answer(calendar);
}

template <typename Answer>
void SyllabusCommand::write(const Answer& answer) const {
    if (to_)
        to_->write(report::write(format_.wanted(), answer, {}));
    else
        cli::write(format_, answer);
}

std::unique_ptr<Command> syllabus_command() { return std::make_unique<SyllabusCommand>(); }

}  // namespace cli
