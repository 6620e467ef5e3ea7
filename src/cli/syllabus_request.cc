#include "cli/syllabus_request.h"

#include <algorithm>
#include <charconv>
#include <string_view>
#include <utility>

#include "cli/day_option.h"
#include "cli/default_words.h"
#include "cli/terminal.h"
#include "music/note_set.h"
#include "syllabus/course.h"
#include "syllabus/term.h"

namespace cli {

namespace {

constexpr const char* kDates = "When";
constexpr const char* kPace = "How fast, and what the term keeps to";
constexpr std::chrono::days kWeek{7};

std::optional<int> in_range(const std::string& option, std::optional<std::int64_t> value, std::int64_t least,
                            std::int64_t most) {
    if (!value) return std::nullopt;
    if (*value < least || *value > most)
        throw Misuse(option + " takes a whole number from " + std::to_string(least) + " to " + std::to_string(most) +
                     ", not " + std::to_string(*value));
    return static_cast<int>(*value);
}

constexpr std::string_view kBy = " by ";

// `TUNE by DATE`, `TUNE by 3`, `TUNE`; what follows the last " by " belongs to the title where it is more than digits.
answers::TermRequest::Must read_must(const std::string& text) {
    const std::size_t at = text.rfind(kBy);
    if (at == std::string::npos) return {text};
    const std::string title = text.substr(0, at);
    const std::string when = text.substr(at + kBy.size());
    if (when.empty() || when.find_first_not_of("0123456789-") != std::string::npos) return {text};
    if (when.find('-') != std::string::npos) return {title, date_of("--must \"" + text + "\"", when)};
    int lesson = 0;
    const auto [end, error] = std::from_chars(when.data(), when.data() + when.size(), lesson);
    if (error != std::errc() || end != when.data() + when.size() || lesson < 1 || lesson > syllabus::kMostLessons)
        throw Misuse("--must \"" + text + "\": lessons count from 1 to " + std::to_string(syllabus::kMostLessons));
    return {title, std::nullopt, lesson};
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
    command
        .add_option("--lessons", lessons_,
                    "how many are held, one a week" + default_words(syllabus::TermDates{}.lessons))
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
    command
        .add_option("--notes-every", notes_every_,
                    "lessons from one new note to the next" + default_words(syllabus::Pace{}.notes_every))
        ->type_name("N")
        ->group(kPace);
    command
        .add_option("--tunes-each", tunes_each_,
                    "new tunes a lesson at most" + default_words(syllabus::Pace{}.tunes_each))
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
    command
        .add_option("--max-states", max_states_,
                    "of the search for the best timetable" + default_words(syllabus::Course{}.max_states))
        ->type_name("N")
        ->group(kPace);
    filter_.add_to(command, library);
    filter_.add_scraps(command);
    filter_.leave_scraps_aside();
    const auto all = std::as_const(command).get_options();
    options_.assign(all.begin() + static_cast<std::ptrdiff_t>(before), all.end());
}

bool SyllabusRequest::is_given() const {
    return std::any_of(options_.begin(), options_.end(), [](const CLI::Option* option) {
        return option->count() > 0 && option->get_name() != "--library";  // where a term is kept is no part of it
    });
}

answers::TermRequest SyllabusRequest::request() const {
    for (const CLI::Option* option : options_)
        for (const std::string& value : option->results())
            if (value.empty()) throw Misuse(option->get_name() + " says nothing; give it a value or leave it out");
    answers::TermRequest request;
    if (from_) request.from = date_of("--from", *from_);
    if (on_) request.on = base::parse_weekday(*on_);
    if (on_ && !request.on) throw Misuse("--on: \"" + *on_ + "\" is no weekday; write monday, tuesday ...");
    request.lessons = in_range("--lessons", lessons_, 1, syllabus::kMostLessons);
    for (const std::string& text : breaks_) {
        try {
            request.breaks.push_back(syllabus::read_break(text));
        } catch (const syllabus::TermFault& fault) {
            throw Misuse(std::string("--break: ") + fault.what());
        }
    }
    request.have = have_;
    request.notes_every = in_range("--notes-every", notes_every_, 1, syllabus::kMostLessons);
    request.tunes_each = in_range("--tunes-each", tunes_each_, 1, syllabus::kMostTunesEach);
    request.steps = in_range("--steps", steps_, 0, music::kMidiNotes);
    request.first = first_;
    for (const std::string& text : musts_) request.musts.push_back(read_must(text));
    request.begin = begin_;
    request.without = without_;
    if (const auto states = in_range("--max-states", max_states_, 1, answers::kMostTermStates))
        request.max_states = static_cast<std::size_t>(*states);
    if (filter_.asks_for_missing()) throw Misuse("a term brings what is missing by itself; leave out --missing");
    request.filter = filter_.filter();
    if (request.filter.columns.settings)
        throw Misuse("a term teaches tunes and not their versions; leave out --versions");
    return request;
}

std::vector<std::string> told_of_dates(const answers::TermRequest& request,
                                       const std::vector<syllabus::Lesson>& lessons) {
    std::vector<std::string> notices;
    const base::Date from = *request.from;
    if (request.on && base::weekday_of(from) != *request.on)
        notices.push_back(base::to_string(from) + " is a " + std::string(base::weekday_name(base::weekday_of(from))) +
                          "; the first lesson is on the first " + std::string(base::weekday_name(*request.on)) +
                          " from then on, " + base::in_words(lessons.front().date) + ".");
    if (lessons.front().date - from >= kWeek)
        notices.push_back("No lesson is held before " + base::in_words(lessons.front().date) + ": the weeks from " +
                          base::to_string(from) + " on are in a break.");
    const std::chrono::weekday on = request.on.value_or(base::weekday_of(from));
    for (const syllabus::DateRange& range : request.breaks) {
        base::Date day = range.first;
        day += on - base::weekday_of(day);
        if (day > range.last)
            notices.push_back("The break " + syllabus::to_string(range) + " has no " +
                              std::string(base::weekday_name(on)) + " in it and takes no lesson away.");
    }
    return notices;
}

}  // namespace cli
