#include "cli/syllabus_request.h"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "cli/day_option.h"
#include "cli/terminal.h"

namespace cli {

namespace {

constexpr const char* kDates = "When";
constexpr const char* kPace = "How fast, and what the term keeps to";
constexpr std::int64_t kMostStates = 20'000'000;  // Source: house choice; some gigabytes
constexpr std::chrono::days kWeek{7};

int in_range(const std::string& option, std::int64_t value, std::int64_t least, std::int64_t most) {
    if (value < least || value > most)
        throw Misuse(option + " takes a whole number from " + std::to_string(least) + " to " + std::to_string(most) +
                     ", not " + std::to_string(value));
    return static_cast<int>(value);
}

}  // namespace

void SyllabusRequest::add_to(CLI::App& command, std::string& library) {
    const std::size_t before = command.get_options().size();
    command.add_option("--from", from_, "no lesson before this day, such as 2027-01-12; with it a term is planned")
        ->type_name("DATE")
        ->group(kDates);
    command.add_option("--on", on_, "tuesday ...; the weekday of --from when left out")
        ->type_name("WEEKDAY")
        ->group(kDates);
    command.add_option("--lessons", lessons_, "how many are held, one a week (default 10)")
        ->type_name("N")
        ->group(kDates);
    command.add_option("--break", breaks_, "no lesson on this day, or on FIRST..LAST; may be given again")
        ->type_name("DATE")
        ->group(kDates)
        ->allow_extra_args(false);
    command
        .add_option("--have", have_,
                    "the notes that are there, such as \"G:major&D:major A3..B5\"; for several players "
                    "--fits, once for each")
        ->type_name("NOTES")
        ->group(kPace);
    command.add_option("--notes-every", notes_every_, "lessons from one new note to the next (default 2)")
        ->type_name("N")
        ->group(kPace);
    command.add_option("--tunes-each", tunes_each_, "new tunes a lesson at most (default 1)")
        ->type_name("N")
        ->group(kPace);
    command.add_option("--steps", steps_, "new notes in the term at most; 0 for none")->type_name("K")->group(kPace);
    command.add_option("--first", first_, "the first new notes, in this order; else as gamut path has them")
        ->type_name("NOTES")
        ->group(kPace);
    command
        .add_option("--must", musts_,
                    "this tune must come: \"TUNE\", \"TUNE by DATE\" or \"TUNE by 3\" for lesson 3; "
                    "may be given again")
        ->type_name("TUNE")
        ->group(kPace)
        ->allow_extra_args(false);
    command.add_option("--begin", begin_, "the first new tunes, in this order; may be given again")
        ->type_name("TUNE")
        ->group(kPace)
        ->allow_extra_args(false);
    command.add_option("--without", without_, "never this tune; may be given again")
        ->type_name("TUNE")
        ->group(kPace)
        ->allow_extra_args(false);
    command.add_option("--max-states", max_states_, "of the search for the best timetable (default 300000)")
        ->type_name("N")
        ->group(kPace);
    filter_.add_to(command, library);
    filter_.add_scraps(command);
    filter_.leave_scraps_aside();
    const auto all = std::as_const(command).get_options();
    options_.assign(all.begin() + static_cast<std::ptrdiff_t>(before), all.end());
}

namespace {

// What was typed, so that it means the same in another folder and can be read again.
std::string as_kept(const std::string& name, const std::string& value) {
    if (value.empty()) throw Misuse(name + " says nothing; give it a value or leave it out");
    return name == "--instrument-file" ? std::filesystem::absolute(value).lexically_normal().string() : value;
}

}  // namespace

std::vector<std::string> SyllabusRequest::words() const {
    std::vector<std::string> words;
    for (const CLI::Option* option : options_) {
        const std::string name = option->get_name();
        if (option->count() == 0 || name == "--library") continue;  // where a term is kept is no part of it
        if (option->get_expected_max() == 0 || option->get_type_size() == 0)
            words.push_back(name);
        else
            for (const std::string& value : option->results()) words.push_back(name + "=" + as_kept(name, value));
    }
    return words;
}

SyllabusRequest SyllabusRequest::read_again(std::vector<std::string> words, std::string& library) {
    SyllabusRequest request;
    CLI::App app;
    request.add_to(app, library);
    std::reverse(words.begin(), words.end());
    try {
        app.parse(std::move(words));
    } catch (const CLI::ParseError& error) {
        throw Misuse(std::string("this gamut does not understand what the term was asked for with: ") + error.what());
    }
    request.options_.clear();  // they go with the app
    return request;
}

syllabus::TermDates SyllabusRequest::dates() const {
    if (!from_) throw Misuse("a term needs --from DATE: when does it begin?");
    syllabus::TermDates term;
    term.from = date_of("--from", *from_);
    if (on_) {
        term.on = base::parse_weekday(*on_);
        if (!term.on) throw Misuse("--on: \"" + *on_ + "\" is no weekday; write monday, tuesday ...");
    }
    term.lessons = in_range("--lessons", lessons_, 1, syllabus::kMostLessons);
    for (const std::string& text : breaks_) {
        try {
            term.breaks.push_back(syllabus::read_break(text));
        } catch (const syllabus::TermFault& fault) {
            throw Misuse(std::string("--break: ") + fault.what());
        }
    }
    return term;
}

std::vector<syllabus::Lesson> SyllabusRequest::lessons(std::vector<std::string>& notices) const {
    const syllabus::TermDates term = dates();
    std::vector<syllabus::Lesson> lessons;
    try {
        for (const base::Date day : syllabus::lesson_dates(term)) lessons.push_back({day, {}, false, {}, {}, {}});
    } catch (const syllabus::TermFault& fault) {
        throw Misuse(fault.what());
    }
    if (term.on && base::weekday_of(term.from) != *term.on)
        notices.push_back(base::to_string(term.from) + " is a " +
                          std::string(base::weekday_name(base::weekday_of(term.from))) +
                          "; the first lesson is on the first " + std::string(base::weekday_name(*term.on)) +
                          " from then on, " + base::in_words(lessons.front().date) + ".");
    if (lessons.front().date - term.from >= kWeek)
        notices.push_back("No lesson is held before " + base::in_words(lessons.front().date) + ": the weeks from " +
                          base::to_string(term.from) + " on are in a break.");
    const std::chrono::weekday on = term.on.value_or(base::weekday_of(term.from));
    for (const syllabus::DateRange& range : term.breaks) {
        base::Date day = range.first;
        day += on - base::weekday_of(day);
        if (day > range.last)
            notices.push_back("The break " + base::to_string(range.first) +
                              (range.first == range.last ? "" : ".." + base::to_string(range.last)) + " has no " +
                              std::string(base::weekday_name(on)) + " in it and takes no lesson away.");
    }
    return lessons;
}

syllabus::Pace SyllabusRequest::pace() const {
    syllabus::Pace pace;
    pace.notes_every = in_range("--notes-every", notes_every_, 1, syllabus::kMostLessons);
    pace.tunes_each = in_range("--tunes-each", tunes_each_, 1, syllabus::kMostTunesEach);
    if (steps_) pace.steps = in_range("--steps", *steps_, 0, music::kMidiNotes);
    return pace;
}

std::size_t SyllabusRequest::max_states() const {
    return static_cast<std::size_t>(in_range("--max-states", max_states_, 1, kMostStates));
}

std::vector<planner::Member> SyllabusRequest::players(const answers::TunesAsked& asked) const {
    std::vector<planner::Member> players = asked.members();
    if (have_ && !players.empty())
        throw Misuse("say which notes are there with --have, or for players with --fits and --for; leave out one");
    if (have_) {
        const instruments::Instrument* instrument = asked.instrument();
        players.push_back(
            {"", asked.notes(answers::Part::have, *have_), instrument ? instrument->note_set() : music::every_note()});
    }
    if (players.empty())
        throw Misuse(
            "a term needs --have NOTES, or --for PLAYER or --fits once for each player: which notes are there?");
    return players;
}

}  // namespace cli
