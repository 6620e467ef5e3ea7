#include "report/pages/syllabus_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "answers/stored_request.h"
#include "report/words/syllabus_words.h"
#include "report/words/telling_words.h"
#include "report/words/term_options.h"
#include "report/words/words.h"

namespace report {

namespace {

using syllabus::Criterion;
using syllabus::Lesson;
using syllabus::Syllabus;

Cell cell_of(const std::string& text) { return text.empty() ? Cell() : Cell(text); }

// `Tue 12 Jan`: the heading says the year.
std::string day_in_words(base::Date day) {
    const std::string words = base::in_words(day);
    return words.substr(0, words.rfind(' '));
}

std::string state_in_words(const Lesson& lesson) { return std::string(syllabus::state_token(lesson.state)); }

bool has_states(const Syllabus& plan) {
    return std::any_of(plan.lessons.begin(), plan.lessons.end(),
                       [](const Lesson& lesson) { return lesson.state != syllabus::LessonState::planned; });
}

Table lessons_table(const Syllabus& plan) {
    const bool with_states = has_states(plan);
    Table table{{{"no"}, {"date"}}, {}};
    if (with_states) table.columns.push_back({"state"});
    table.columns.push_back({"new note"});
    table.columns.push_back({"new tune", Fit::wrapped, 16});
    table.columns.push_back({"again", Fit::wrapped, 16});
    for (std::size_t at = 0; at < plan.lessons.size(); ++at) {
        const Lesson& lesson = plan.lessons[at];
        std::vector<std::string> tunes, again;
        for (const syllabus::TermTune& tune : lesson.tunes) tunes.push_back(titles_with_rhythm({tune}));
        for (const syllabus::TermTune& tune : lesson.again) again.push_back(tune.title);
        if (lesson.brings_nothing()) tunes.emplace_back("nothing new");
        std::vector<Cell> row{Cell(static_cast<std::int64_t>(at + 1)), Cell(day_in_words(lesson.date))};
        if (with_states) row.emplace_back(state_in_words(lesson));
        row.push_back(lesson.notes ? Cell(Notes{lesson.notes->notes}) : Cell(std::string()));
        row.emplace_back(Items{std::move(tunes)});
        row.emplace_back(Items{std::move(again)});
        table.rows.push_back(std::move(row));
    }
    return table;
}

std::string times_in_words(const syllabus::TermTune& tune) {
    const std::string times = tune.times == 1   ? "once"
                              : tune.times == 2 ? "twice"
                                                : fmt::format("{} times", tune.times);
    if (tune.strong == 0) return times + ", never on a strong beat";
    if (tune.times == 1) return "once, on a strong beat";
    return fmt::format("{}, {} on a strong beat", times,
                       tune.strong == tune.times && tune.times > 1 ? "all" : std::to_string(tune.strong));
}

// Tunes that use the newest note, up to the next one.
std::vector<const syllabus::TermTune*> tunes_for_note(const Syllabus& plan, std::size_t lesson) {
    std::vector<const syllabus::TermTune*> tunes;
    for (std::size_t at = lesson; at < plan.lessons.size(); ++at) {
        if (!plan.lessons[at].is_held()) continue;
        if (at > lesson && plan.lessons[at].notes) break;
        for (const syllabus::TermTune& tune : plan.lessons[at].tunes)
            if (tune.use != syllabus::Use::none && tunes.size() < syllabus::kTunesPerNote) tunes.push_back(&tune);
    }
    return tunes;
}

std::string why(const Syllabus& plan, std::size_t at) {
    const syllabus::NewNotes& notes = *plan.lessons[at].notes;
    std::string words =
        fmt::format("{} in lesson {} opens {}", note_list(notes.notes), at + 1, counted(notes.opens, "tune", "tunes"));
    if (notes.notes.size() > 1) words += " (no fewer of them would open one)";
    if (!notes.learners.empty()) {
        std::string who;
        for (const std::string& name : notes.learners) who += (who.empty() ? "" : ", ") + name;
        words += "; new to " + who;
    }
    words += ".";
    const auto tunes = tunes_for_note(plan, at);
    const bool is_one = notes.notes.size() == 1;
    if (tunes.empty())
        return words + fmt::format(" No tune of the term uses {} before the next note.", is_one ? "it" : "them");
    words += fmt::format(" {} in \"{}\" ({})", is_one ? "It comes" : "They come", tunes[0]->title,
                         times_in_words(*tunes[0]));
    if (tunes.size() > 1) words += fmt::format(", then in \"{}\" ({})", tunes[1]->title, times_in_words(*tunes[1]));
    return words + ".";
}

// That can put the notes in another order.
bool has_wishes(const Syllabus& plan) {
    const answers::TermRequest asked = answers::read_request(plan.asked);
    return asked.first || !asked.musts.empty() || !asked.begin.empty();
}

void add_judgement(const Syllabus& plan, Document& document) {
    const syllabus::Outcome& outcome = plan.outcome;
    Particulars judged;
    std::optional<Criterion> open;
    for (std::size_t at = 0; at < syllabus::kCriteria; ++at) {
        const auto criterion = static_cast<Criterion>(at);
        const bool counts_down = criterion == Criterion::notes_not_taught || criterion == Criterion::not_asked_for;
        const std::int64_t value = counts_down ? -outcome.cost[criterion] : outcome.cost[criterion];
        const std::int64_t bound = counts_down ? -outcome.bound[criterion] : outcome.bound[criterion];
        std::string text = std::to_string(value);
        if (!open && value != bound) {
            open = criterion;
            text += fmt::format(" (proven: not {} {})", counts_down ? "over" : "under", bound);
        }
        // Of what can go wrong only where something was wished for or lost: told where it did.
        const bool is_rare = criterion == Criterion::wishes_late || criterion == Criterion::left_behind;
        if (is_rare && value == 0 && bound == 0) continue;
        judged.lines.emplace_back(text, criterion_in_words(criterion));
    }
    document.blocks.emplace_back(Heading{plan.revision == 0
                                             ? "How it was judged, the weightiest first"
                                             : "How the lessons planned last were judged, the weightiest first"});
    document.blocks.emplace_back(std::move(judged));
    document.blocks.emplace_back(Paragraph{
        (!open ? fmt::format("Proof: no timetable with this order of notes is better ({}).",
                             counted(static_cast<std::int64_t>(outcome.states), "state", "states"))
               : fmt::format(
                     "Not proven best: a line marked \"proven\" may still be improved ({}; --max-states allows more).",
                     counted(static_cast<std::int64_t>(outcome.states), "state", "states"))) +
        " The notes come in the order of gamut path, which is " + (outcome.path_is_proven ? "" : "not ") +
        "proven the best" + (has_wishes(plan) ? " of those that keep to what was asked for." : ".")});
}

void add_closing(const Syllabus& plan, Document& document) {
    if (plan.closing.empty()) return;
    int seconds = 0;
    Table table{{{"set"}, {"tunes", Fit::wrapped, 20}, {"minutes"}}, {}};
    for (const syllabus::ClosingSet& set : plan.closing) {
        seconds += set.seconds;
        table.rows.push_back({Cell(set.rhythm.empty() ? std::string("by itself") : set.rhythm),
                              Cell(titles_in_words(set.tunes)),
                              Cell(std::int64_t{std::max(1, (set.seconds + 30) / 60)})});
    }
    document.blocks.emplace_back(Heading{"To play through in the last lesson"});
    document.blocks.emplace_back(std::move(table));
    document.blocks.emplace_back(Paragraph{fmt::format("Each tune {} times at a first-year pace: {} in all.",
                                                       syllabus::kTimesThrough, minutes_in_words(seconds))});
}

// A lesson so short that it fits a column: what is new in it, and of the rest what is different.
std::string in_short(const std::optional<Lesson>& lesson, const std::optional<Lesson>& other, bool with_state) {
    if (!lesson) return "-";
    if (!lesson->is_held()) return "no lesson was held";
    std::string words = news_in_words(*lesson);
    if (words.empty()) words = "nothing new";
    if (!other || !other->is_held()) return words;
    const bool is_same = lesson->tunes == other->tunes && lesson->notes == other->notes;
    if (is_same && lesson->again != other->again) words += "; again: " + titles_in_words(lesson->again);
    if (with_state && lesson->state != other->state) words += "; " + state_in_words(*lesson);
    return words;
}

// Tunes that only the first of the two teaches; empty where there is none.
std::string only_in(const std::vector<syllabus::Change>& changes, std::optional<Lesson> syllabus::Change::*one,
                    std::optional<Lesson> syllabus::Change::*other) {
    std::string titles;
    const auto teaches = [&](tune::TuneId id) {
        return std::any_of(changes.begin(), changes.end(), [&](const syllabus::Change& change) {
            const std::optional<Lesson>& lesson = change.*other;
            return lesson && std::any_of(lesson->tunes.begin(), lesson->tunes.end(),
                                         [&](const syllabus::TermTune& tune) { return tune.id == id; });
        });
    };
    for (const syllabus::Change& change : changes)
        for (const syllabus::TermTune& tune : change.*one ? (change.*one)->tunes : std::vector<syllabus::TermTune>())
            if (!teaches(tune.id)) titles += (titles.empty() ? "" : "; ") + tune.title;
    return titles;
}

Table changes_table(const std::vector<syllabus::Change>& changes, const std::string& before, const std::string& after) {
    Table table{{{"no"}, {"date"}, {before, Fit::wrapped, 20}, {after, Fit::wrapped, 20}}, {}};
    for (const syllabus::Change& change : changes) {
        const Lesson& either = change.before ? *change.before : *change.after;
        table.rows.push_back({Cell(static_cast<std::int64_t>(change.lesson + 1)), Cell(day_in_words(either.date)),
                              Cell(in_short(change.before, change.after, true)),
                              Cell(in_short(change.after, change.before, true))});
    }
    return table;
}

// Of a lesson with another new tune what comes again is left out, to keep the table narrow.
void add_changes(const std::vector<syllabus::Change>& changes, Table table, Document& document) {
    document.blocks.emplace_back(std::move(table));
    const bool is_any_left_out = std::any_of(changes.begin(), changes.end(), [](const syllabus::Change& change) {
        return change.before && change.after && change.before->is_held() && change.after->is_held() &&
               change.before->tunes != change.after->tunes && change.before->again != change.after->again;
    });
    if (is_any_left_out)
        document.blocks.emplace_back(
            Paragraph{"Where a lesson has another new tune, what comes again in it is not listed here."});
}

Table comparison_table(const std::vector<syllabus::Change>& changes, const std::string& one, const std::string& other) {
    Table table{{{"no"}, {"date"}, {one, Fit::wrapped, 16}, {"date"}, {other, Fit::wrapped, 16}}, {}};
    const auto day = [](const std::optional<Lesson>& lesson) {
        return lesson ? Cell(day_in_words(lesson->date)) : Cell(std::string("-"));
    };
    for (const syllabus::Change& change : changes)
        table.rows.push_back({Cell(static_cast<std::int64_t>(change.lesson + 1)), day(change.before),
                              Cell(in_short(change.before, change.after, false)), day(change.after),
                              Cell(in_short(change.after, change.before, false))});
    return table;
}

}  // namespace

Document describe(const SyllabusPage& page) {
    const Syllabus& plan = page.plan;
    Document document;
    document.blocks.emplace_back(Title{fmt::format(
        "{}: {}, {} to {}", plan.name, counted(static_cast<std::int64_t>(plan.lessons.size()), "lesson", "lessons"),
        base::in_words(plan.lessons.front().date), base::in_words(plan.lessons.back().date))});
    for (const std::string& notice : page.notices) document.blocks.emplace_back(Paragraph{notice});
    document.blocks.emplace_back(
        Particulars{{{"notes at the start", fmt::format("{} ({})", note_list(plan.have), plan.have.size())},
                     {"asked for with", options_in_words(answers::read_request(plan.asked), page.titles)}}});
    document.blocks.emplace_back(lessons_table(plan));
    const bool has_notes = std::any_of(plan.lessons.begin(), plan.lessons.end(),
                                       [](const Lesson& lesson) { return lesson.notes && lesson.is_held(); });
    if (has_notes) document.blocks.emplace_back(Heading{"Why these notes"});
    for (std::size_t at = 0; at < plan.lessons.size(); ++at)
        if (plan.lessons[at].notes && plan.lessons[at].is_held())
            document.blocks.emplace_back(Paragraph{why(plan, at)});
    if (!plan.unmet.empty()) document.blocks.emplace_back(Heading{"Not met"});
    for (const syllabus::Telling& unmet : plan.unmet) document.blocks.emplace_back(Paragraph{in_words(unmet)});
    if (!plan.remarks.empty()) document.blocks.emplace_back(Heading{"Worth knowing"});
    for (const syllabus::Telling& remark : plan.remarks) document.blocks.emplace_back(Paragraph{in_words(remark)});
    if (page.changes) {
        document.blocks.emplace_back(Heading{"What changed"});
        if (page.changes->empty())
            document.blocks.emplace_back(Paragraph{"Nothing."});
        else
            add_changes(*page.changes, changes_table(*page.changes, "before", "after"), document);
        if (const std::string gone = only_in(*page.changes, &syllabus::Change::before, &syllabus::Change::after);
            !gone.empty())
            document.blocks.emplace_back(Paragraph{"No longer in the term: " + gone + "."});
    }
    add_closing(plan, document);
    add_judgement(plan, document);
    document.blocks.emplace_back(Caution{
        "A little practice often; nobody should double it from one week to the next, least of all after a break. "
        "Who has pain stops, and asks a qualified person."});
    return document;
}

Document tabulate(const SyllabusPage& page) { return tabulate(MissedPage{page.plan, 0, page.plan.lessons.size() - 1}); }

Document tabulate(const MissedPage& page) {
    const auto& [plan, first, last] = page;
    Table table{{{"lesson"}, {"date"}, {"state"}, {"new_notes"}, {"new_tunes"}, {"again"}}, {}};
    for (std::size_t at = first; at <= last && at < plan.lessons.size(); ++at) {
        const Lesson& lesson = plan.lessons[at];
        table.rows.push_back({Cell(static_cast<std::int64_t>(at + 1)), Cell(lesson.date),
                              Cell(std::string(syllabus::state_token(lesson.state))),
                              lesson.notes ? Cell(Notes{lesson.notes->notes}) : Cell(),
                              cell_of(titles_in_words(lesson.tunes)), cell_of(titles_in_words(lesson.again))});
    }
    Document document;
    document.blocks.emplace_back(std::move(table));
    return document;
}

Document describe(const SyllabiPage& page) {
    Document document;
    document.blocks.emplace_back(Title{"Terms", true});
    if (page.plans.empty())
        document.blocks.emplace_back(Hint{"No term is kept in this library yet; gamut syllabus --help shows how."});
    else
        document.blocks.push_back(tabulate(page).blocks.front());
    return document;
}

Document tabulate(const SyllabiPage& page) {
    Table table{{{"name", Fit::wrapped, 12}, {"lessons"}, {"taught"}, {"lost"}, {"first"}, {"last"}}, {}};
    for (const Syllabus& plan : page.plans) {
        const auto in = [&](syllabus::LessonState state) {
            return static_cast<std::int64_t>(std::count_if(
                plan.lessons.begin(), plan.lessons.end(), [&](const Lesson& lesson) { return lesson.state == state; }));
        };
        table.rows.push_back({Cell(plan.name), Cell(static_cast<std::int64_t>(plan.lessons.size())),
                              Cell(in(syllabus::LessonState::taught)), Cell(in(syllabus::LessonState::lost)),
                              Cell(plan.lessons.front().date), Cell(plan.lessons.back().date)});
    }
    Document document;
    document.blocks.emplace_back(std::move(table));
    return document;
}

Document describe(const SyllabusComparison& comparison) {
    Document document;
    document.blocks.emplace_back(Title{comparison.one.name + " beside " + comparison.other.name});
    const auto changes = syllabus::changes_between(comparison.one, comparison.other);
    std::vector<syllabus::Change> told;  // that bring something else; day and state are another matter
    std::copy_if(changes.begin(), changes.end(), std::back_inserter(told), [](const syllabus::Change& change) {
        return !change.before || !change.after ||
               in_short(change.before, change.after, false) != in_short(change.after, change.before, false);
    });
    if (told.empty())
        document.blocks.emplace_back(Paragraph{"They bring the same, lesson by lesson."});
    else
        add_changes(told, comparison_table(told, comparison.one.name, comparison.other.name), document);
    for (const auto& [name, titles] :
         {std::pair(comparison.one.name, only_in(changes, &syllabus::Change::before, &syllabus::Change::after)),
          std::pair(comparison.other.name, only_in(changes, &syllabus::Change::after, &syllabus::Change::before))})
        if (!titles.empty()) document.blocks.emplace_back(Paragraph{"Only in " + name + ": " + titles + "."});
    return document;
}

Document tabulate(const SyllabusComparison& comparison) {
    Table table{{{"lesson"}, {"date"}, {comparison.one.name}, {"date"}, {comparison.other.name}}, {}};
    for (const syllabus::Change& change : syllabus::changes_between(comparison.one, comparison.other)) {
        std::vector<Cell> row{Cell(static_cast<std::int64_t>(change.lesson + 1))};
        for (const std::optional<Lesson>& lesson : {change.before, change.after}) {
            row.push_back(lesson ? Cell(lesson->date) : Cell());
            row.push_back(lesson ? Cell(lesson_in_words(*lesson)) : Cell());
        }
        table.rows.push_back(std::move(row));
    }
    Document document;
    document.blocks.emplace_back(std::move(table));
    return document;
}

Document describe(const MissedPage& page) {
    const auto& [plan, first, last] = page;
    std::string line;
    for (std::size_t at = first; at <= last && at < plan.lessons.size(); ++at)
        line += fmt::format("{}{}: {}.", line.empty() ? "" : " ", base::in_words(plan.lessons[at].date),
                            lesson_in_words(plan.lessons[at]));
    return {{Line{std::move(line)}}};
}

}  // namespace report
