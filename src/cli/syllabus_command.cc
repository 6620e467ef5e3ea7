// `gamut syllabus`: a dated term, planned, shown, given and planned again.
#include <algorithm>
#include <charconv>
#include <map>
#include <set>

#include "base/failure.h"
#include "base/utf8.h"
#include "cli/commands.h"
#include "cli/day_option.h"
#include "library/players.h"
#include "library/syllabi.h"
#include "planner/goal.h"
#include "report/csv.h"
#include "report/syllabus_page.h"
#include "report/words.h"
#include "syllabus/changes.h"
#include "syllabus/lay_out.h"
#include "syllabus/name.h"
#include "syllabus/stored_syllabus.h"

namespace cli {

namespace {

using syllabus::LessonState;
using syllabus::Syllabus;

constexpr const char* kKept = "A term that is kept";
constexpr const char* kShape = "How it is shown";

syllabus::Name name_of(const std::string& text) {
    try {
        return syllabus::read_name(text);
    } catch (const syllabus::NameFault& fault) {
        throw Misuse(fault.what());
    }
}

Syllabus read_kept(const std::filesystem::path& file, const library::KeptSyllabus& kept) {
    try {
        Syllabus plan = syllabus::read_stored(kept.text);
        if (plan.lessons.empty()) throw syllabus::StoredFault("it has no lesson");
        return plan;
    } catch (const syllabus::StoredFault& fault) {
        throw base::Failure("read", file.string(), "the term \"" + kept.name + "\" is damaged: " + fault.what());
    }
}

std::optional<std::int64_t> whole_number(std::string_view text) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || text.empty()) return std::nullopt;
    return number;
}

// `3`, `3-4`, or the day of a lesson: from 0, the last included.
std::pair<std::size_t, std::size_t> lessons_named(const std::string& option, const std::string& text,
                                                  const std::vector<syllabus::Lesson>& lessons) {
    const std::size_t all = lessons.size();
    const auto on_day = std::find_if(lessons.begin(), lessons.end(), [&](const syllabus::Lesson& lesson) {
        return base::to_string(lesson.date) == text;
    });
    if (on_day != lessons.end()) {
        const auto at = static_cast<std::size_t>(on_day - lessons.begin());
        return {at, at};
    }
    const std::size_t dash = text.find('-');
    const auto first = whole_number(std::string_view(text).substr(0, dash));
    const auto last = dash == std::string::npos ? first : whole_number(std::string_view(text).substr(dash + 1));
    if (!first || !last || *first < 1 || *last < *first || *last > static_cast<std::int64_t>(all))
        throw Misuse(option + " takes a lesson, the first and the last of several such as 3-4, or its day, from 1 to " +
                     std::to_string(all) + ", not \"" + text + "\"");
    return {static_cast<std::size_t>(*first - 1), static_cast<std::size_t>(*last - 1)};
}

// The same in all but the day it was planned on and how often.
bool is_as_kept(Syllabus plan, const Syllabus& kept) {
    plan.planned_on = kept.planned_on;
    plan.revision = kept.revision;
    return plan == kept;
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

CLI::App* SyllabusCommand::add_to(CLI::App& program) {
    CLI::App* command =
        program.add_subcommand("syllabus", "a term on dates: which note and which tune in which lesson");
    command->add_option("NAME", name_, "what the term is called; without it those that are kept are listed");
    request_.add_to(*command, library_);
    command->add_flag("--replace", replaces_, "plan it anew although the name is in use; what was given is forgotten")
        ->group(kKept);
    command->add_option("--taught", taught_, "lessons 1 to N were given and stay as they are; 0: none was")
        ->type_name("N")
        ->group(kKept);
    command
        ->add_option("--lost", lost_,
                     "this lesson, or that of this day, is not held; what it held moves on, lessons before it stay")
        ->type_name("LESSON")
        ->group(kKept)
        ->allow_extra_args(false);
    command
        ->add_flag("--tell-players", tells_players_,
                   "with --taught: the players of the term are learning the tunes of these lessons")
        ->group(kKept);
    command->add_flag("--replan", replans_, "plan what was not given yet anew, from the library as it is")
        ->group(kKept);
    command->add_option("--missed", missed_, "what was done in these lessons, on one line: 3, or 3-4")
        ->type_name("LESSON")
        ->group(kKept);
    command->add_option("--compare", compared_, "beside another term, lesson by lesson")
        ->type_name("NAME")
        ->group(kKept);
    command->add_option("--again-from", again_from_, "the same for another term that begins on this day; needs --as")
        ->type_name("DATE")
        ->group(kKept);
    command->add_option("--as", as_, "what the other term is called")->type_name("NAME")->group(kKept);
    command->add_flag("--forget", forgets_, "forget it for good; needs --yes")->group(kKept);
    command->add_flag("--take-back", takes_back_, "as it was before the last change; once")->group(kKept);
    command->add_flag("--yes", is_sure_, "yes, forget it, or lose a lesson that was given")->group(kKept);
    command->add_option("--today", today_, "the day of planning, as calendars are told (default: by the clock)")
        ->type_name("DATE")
        ->group(kKept);
    CLI::Option* ics = command->add_flag("--ics", is_calendar_, "as iCalendar, a lesson an event")->group(kShape);
    command->add_option("--at", at_, "with --ics: local time of day, such as 19:30; else all day")
        ->type_name("TIME")
        ->group(kShape)
        ->needs(ics);
    command->add_option("--for-minutes", lasts_, "with --at: how long a lesson is (default 60)")
        ->type_name("N")
        ->group(kShape)
        ->needs(ics);
    command->add_option("--output", output_, "write this new file, instead of to the terminal")
        ->type_name("FILE")
        ->group(kShape);
    add_format(*command, format_);
    command->footer(
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
    return command;
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
    const std::int64_t lasts = lasts_.value_or(60);
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
            "the term was asked for already; what it is asked for can be given with --from or --again-from alone");
    if (again_from_.has_value() != as_.has_value()) throw Misuse("--again-from DATE and --as NAME go together");
    if (tells_players_ && !taught_) throw Misuse("--tell-players goes with --taught N: which lessons were given?");
    if (replaces_ && !plans && !again_from_) throw Misuse("--replace needs what to plan: --from DATE and the notes");
    if (is_calendar_ && (format_.json || format_.csv)) throw Misuse("--ics, --json and --csv: one of them");
    if (is_calendar_ && (!name_ || compared_ || missed_ || forgets_)) throw Misuse("--ics shows one term");
}

int SyllabusCommand::run() {
    check();
    time();  // a word that is no time is told first
    file_ = library_file(library_);
    if (output_) to_ = std::make_unique<NewFile>(*output_);  // before anything is kept
    if (!name_) return list();
    const syllabus::Name name = name_of(*name_);
    if (again_from_) return again(name);
    if (request_.is_given()) return plan(name, request_.words());
    kept_ = library::kept_syllabus(file_, name.folded);
    if (!kept_) {
        write_notice("gamut: no term is called \"" + name.text + "\"; gamut syllabus lists those that are kept\n");
        return kDoneInPart;
    }
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
    if (format_.json)
        write(report::syllabi_json(plans));
    else if (format_.csv)
        write(report::render_csv(report::tabulate_syllabi(plans)));
    else
        write(report::list_syllabi(plans));
    return are_all_whole ? kDone : kDoneInPart;
}

// One that is damaged can be forgotten too.
int SyllabusCommand::forget() const {
    std::string what = "\"" + kept_->name + "\"";
    try {
        const Syllabus plan = read_kept(file_, *kept_);
        what +=
            ", " + std::to_string(plan.lessons.size()) + " lessons from " + base::to_string(plan.lessons.front().date);
    } catch (const base::Failure&) {
        what += ", which is damaged";
    }
    if (!is_sure_) throw Misuse("--forget " + what + ": add --yes to forget it for good");
    library::forget_syllabus(file_, kept_->folded);
    write_answer("Forgotten: " + base::printable(what) + ".\n");
    return kDone;
}

int SyllabusCommand::take_back(report::SyllabusPage& page) const {
    const base::Date today = day_of("--today", today_);
    // Calendars take the higher revision for the newer, so what is taken back is a new one too.
    const auto before =
        library::take_back_syllabus(file_, kept_->folded, [&](const std::string& now, const std::string& text) {
            Syllabus plan = read_kept(file_, {kept_->folded, kept_->name, text});
            plan.revision = read_kept(file_, {kept_->folded, kept_->name, now}).revision + 1;
            plan.planned_on = today;
            return syllabus::write_stored(plan);
        });
    if (!before) {
        write_notice("gamut: nothing is to be taken back of \"" + base::printable(page.plan.name) + "\"\n");
        return kDoneInPart;
    }
    const Syllabus changed = std::move(page.plan);
    page.plan = read_kept(file_, *before);
    page.changes = syllabus::changes_between(changed, page.plan);
    return show(page);
}

int SyllabusCommand::compare(const Syllabus& plan) const {
    const syllabus::Name other = name_of(*compared_);
    const auto kept = library::kept_syllabus(file_, other.folded);
    if (!kept) {
        write_notice("gamut: no term is called \"" + other.text + "\"; gamut syllabus lists those that are kept\n");
        return kDoneInPart;
    }
    const report::SyllabusComparison comparison{plan, read_kept(file_, *kept)};
    if (format_.json)
        write(report::comparison_json(comparison));
    else if (format_.csv)
        write(report::render_csv(report::tabulate_comparison(comparison)));
    else
        write(report::describe_comparison(comparison));
    return kDone;
}

int SyllabusCommand::tell_missed(const Syllabus& plan) const {
    const auto [first, last] = lessons_named("--missed", *missed_, plan.lessons);
    write(base::printable(report::missed_in_words(plan, first, last)) + "\n");
    return kDone;
}

int SyllabusCommand::again(const syllabus::Name& name) {
    const auto kept = library::kept_syllabus(file_, name.folded);
    if (!kept) {
        write_notice("gamut: no term is called \"" + name.text + "\"; gamut syllabus lists those that are kept\n");
        return kDoneInPart;
    }
    return plan(name_of(*as_), SyllabusRequest::moved(read_kept(file_, *kept).asked, *again_from_, request_.words()));
}

int SyllabusCommand::plan(const syllabus::Name& name, const std::vector<std::string>& typed) {
    kept_ = library::kept_syllabus(file_, name.folded);
    std::optional<Syllabus> before;
    try {
        if (kept_) before = read_kept(file_, *kept_);
    } catch (const base::Failure&) {
        if (!replaces_) throw;
    }
    report::SyllabusPage page;
    std::vector<syllabus::Lesson> lessons = SyllabusRequest::read_again(typed, library_).lessons(page.notices);
    const auto words = SyllabusRequest::with_ids(typed, library::Library::open_existing(file_));
    if (!words) return kDoneInPart;
    const bool is_said_again = before && before->asked == *words;
    if (before && !is_said_again && !replaces_) refuse_to_replace(before->name);
    const SyllabusRequest request = SyllabusRequest::read_again(*words, library_);
    if (!lay_out(request, std::move(lessons), 0, {}, page.plan)) return kDoneInPart;
    page.plan.name = name.text;
    page.plan.planned_on = day_of("--today", today_);
    page.plan.asked = *words;
    if (!brings_something(page.plan)) {
        for (const std::string& sentence : page.plan.unmet) write_notice("gamut: " + base::printable(sentence) + "\n");
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

// False where no tune can come, which has been said.
bool SyllabusCommand::lay_out(const SyllabusRequest& request, std::vector<syllabus::Lesson> lessons, std::size_t fixed,
                              std::map<tune::TuneId, int> promised, Syllabus& plan) const {
    const bool is_again = fixed > 0 || replans_;
    const library::Library library = library::Library::open_existing(file_);
    std::set<tune::TuneId> taught;
    for (std::size_t at = 0; at < fixed; ++at)
        for (const syllabus::TermTune& tune : lessons[at].tunes) taught.insert(tune.id);
    std::vector<std::string> missing;
    syllabus::Course course = request.course(library, is_again, taught, missing);
    course.promised = std::move(promised);
    if (course.tunes.empty() && !is_again) {
        write_notice("gamut: no tune passes the filter; nothing is planned\n");
        return false;
    }
    try {
        plan = syllabus::lay_out(course, std::move(lessons), fixed);
    } catch (const planner::GoalFault& fault) {
        throw Misuse(fault.what());
    }
    plan.unmet.insert(plan.unmet.end(), missing.begin(), missing.end());
    plan.remarks.insert(plan.remarks.begin(), course.remarks.begin(), course.remarks.end());
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

// These lessons, and all before them, stand. Gives the tunes that were to come in them or later.
std::map<tune::TuneId, int> SyllabusCommand::lose(std::vector<syllabus::Lesson>& lessons, std::size_t& fixed) const {
    constexpr int kLater = 1, kLost = 2;  // see syllabus::Piece::promised
    std::map<tune::TuneId, int> promised;
    for (const std::string& text : lost_) {
        const auto [first, last] = lessons_named("--lost", text, lessons);
        for (std::size_t at = first; at <= last; ++at) {
            if (lessons[at].state == LessonState::taught && !is_sure_)
                throw Misuse("lesson " + std::to_string(at + 1) +
                             " was given; --yes says that it was not held after all, and what it held moves on");
            for (const syllabus::TermTune& tune : lessons[at].tunes) promised[tune.id] = kLost;
            lessons[at] = {lessons[at].date, LessonState::lost, false, {}, {}, {}};
        }
        if (!replans_) fixed = std::max(fixed, last + 1);
    }
    for (std::size_t at = fixed; at < lessons.size() && !replans_; ++at)
        for (const syllabus::TermTune& tune : lessons[at].tunes) promised.emplace(tune.id, kLater);
    return promised;
}

int SyllabusCommand::change(const syllabus::Name& name, report::SyllabusPage page) {
    const Syllabus before = page.plan;
    if (tells_players_ && SyllabusRequest::players_in(before.asked).empty())
        throw Misuse("--tell-players: the term was asked for without --for, so it has no players");
    std::vector<syllabus::Lesson> lessons = before.lessons;
    std::size_t fixed = mark_given(lessons);
    std::map<tune::TuneId, int> promised = lose(lessons, fixed);
    if (lost_.empty() && !replans_) {
        page.plan.lessons = std::move(lessons);
    } else if (replans_ || lessons != before.lessons) {
        Syllabus plan;
        const auto asked = SyllabusRequest::for_those_left(before.asked, library::Library::open_existing(file_),
                                                           before.have, page.notices);
        lay_out(SyllabusRequest::read_again(asked, library_), std::move(lessons), fixed, std::move(promised), plan);
        plan.name = before.name;
        plan.asked = asked;
        if (const music::NoteSet more = plan.have.without(before.have); fixed > 0 && !more.empty())
            plan.remarks.push_back(report::note_list(more) + (more.size() == 1 ? " was" : " were") +
                                   " not there at the start and " + (more.size() == 1 ? "is" : "are") +
                                   " by now: everyone has learnt " + (more.size() == 1 ? "it" : "them") + ".");
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
    return show(page);
}

// What was given, to the players of the term: they are learning it from the day of the lesson on.
void SyllabusCommand::tell_players(const Syllabus& plan, std::vector<std::string>& notices) const {
    if (!taught_) return;
    const std::vector<std::string> names = SyllabusRequest::players_in(plan.asked);
    struct Told {
        tune::PlayerId player;
        tune::TuneId tune;
        base::Date day;
    };
    std::vector<Told> told;
    for (const library::PlayerRecord& record : library::Library::open_existing(file_).players()) {
        if (std::none_of(names.begin(), names.end(), [&](const std::string& name) {
                return tune::fold_player_name(name) == record.player.name.folded;
            }))
            continue;
        for (const syllabus::Lesson& lesson : plan.lessons)
            for (const syllabus::TermTune& tune : lesson.tunes) {
                const auto said = std::find_if(record.tunes.begin(), record.tunes.end(),
                                               [&](const tune::PlayerTune& one) { return one.tune == tune.id; });
                if (lesson.state == LessonState::taught &&
                    (said == record.tunes.end() || tune::can_enter(*said, lesson.date)))
                    told.push_back({record.player.id, tune.id, lesson.date});
            }
    }
    if (told.empty()) return;
    const std::string times =
        report::counted(static_cast<std::int64_t>(told.size()), "tune", "tunes") + ", counted for each of them";
    if (!tells_players_) {
        notices.push_back("Not written down for the players yet: " + times +
                          "; --tell-players writes that they are learning them.");
        return;
    }
    library::Players players = library::Players::change(file_);
    for (const Told& one : told) players.record(one.player, one.tune, {one.day, tune::PlayerEvent::learning});
    players.commit();
    notices.push_back("Written down for the players as learning, from the day of the lesson: " + times + ".");
}

void SyllabusCommand::keep(const syllabus::Name& name, const Syllabus& plan) const {
    const auto instead_of = kept_ ? std::optional(kept_->text) : std::nullopt;
    if (!library::keep_syllabus(file_, {name.folded, plan.name, syllabus::write_stored(plan)}, instead_of))
        throw base::Failure("keep", "the term \"" + plan.name + "\"",
                            "it was changed by another program meanwhile; nothing is kept, please try again");
}

report::SyllabusPage SyllabusCommand::with_titles(report::SyllabusPage page) const {
    const library::Library library = library::Library::open_existing(file_);
    for (const tune::TuneId id : SyllabusRequest::tunes_in(page.plan.asked))
        if (const auto record = library.tune_by_id(id)) page.titles[id] = report::title_of(*record);
    return page;
}

int SyllabusCommand::show(const report::SyllabusPage& page) const {
    if (is_calendar_)
        write(report::syllabus_calendar(page.plan, time()));
    else if (format_.json)
        write(report::syllabus_json(page));
    else if (format_.csv)
        write(report::render_csv(report::tabulate_syllabus(page)));
    else
        write(report::describe_syllabus(with_titles(page)));
    if (is_calendar_ || format_.csv)
        for (const std::string& sentence : page.notices) write_notice("gamut: " + base::printable(sentence) + "\n");
    if (is_calendar_ || format_.csv)
        for (const std::string& sentence : page.plan.unmet) write_notice("gamut: " + base::printable(sentence) + "\n");
    return page.plan.unmet.empty() ? kDone : kDoneInPart;
}

void SyllabusCommand::write(const std::string& text) const {
    if (to_)
        to_->write(text);
    else
        write_answer(text);
}

void SyllabusCommand::write(const report::Document& document) const {
    if (to_)
        to_->write(report::render_text(document, {}));
    else
        write_answer(document);
}

}  // namespace cli
