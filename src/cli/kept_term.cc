#include "cli/kept_term.h"

#include <algorithm>
#include <charconv>

#include "answers/stored_request.h"
#include "base/failure.h"
#include "cli/instrument_option.h"
#include "cli/terminal.h"
#include "report/words/telling_words.h"
#include "syllabus/stored_syllabus.h"

namespace cli {

using syllabus::Syllabus;

Syllabus read_kept(const std::filesystem::path& file, const library::KeptSyllabus& kept) {
    try {
        Syllabus plan = syllabus::read_stored(kept.text);
        plan.asked = answers::write_request(answers::read_request(plan.asked));
        if (plan.lessons.empty()) throw syllabus::StoredFault("it has no lesson");
        return plan;
    } catch (const syllabus::StoredFault& fault) {
        throw base::Failure("read", file.string(), "the term \"" + kept.name + "\" is damaged: " + fault.what());
    }
}

answers::TermRequest with_instrument(answers::TermRequest request) {
    if (const auto& file = request.filter.instrument_file)
        request.filter.instrument = std::make_shared<const instruments::Instrument>(read_own_instrument(*file));
    return request;
}

std::optional<std::int64_t> whole_number(std::string_view text) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || text.empty()) return std::nullopt;
    return number;
}

namespace {

// Throws where it is a day at all: none of the lessons is on it.
void refuse_other_day(const std::string& option, const std::string& text,
                      const std::vector<syllabus::Lesson>& lessons) {
    base::Date day;
    try {
        day = base::read_date(text);
    } catch (const base::DateFault&) {
        return;
    }
    std::string nearest;
    const auto after =
        std::find_if(lessons.begin(), lessons.end(), [&](const syllabus::Lesson& lesson) { return lesson.date > day; });
    const auto add = [&](std::vector<syllabus::Lesson>::const_iterator lesson) {
        nearest += (nearest.empty() ? "" : " and ") + std::to_string(lesson - lessons.begin() + 1) + " (" +
                   base::in_words(lesson->date) + ")";
    };
    if (after != lessons.begin()) add(after - 1);
    if (after != lessons.end()) add(after);
    throw Misuse(option + ": no lesson is on " + base::in_words(day) + "; nearest: lesson " + nearest);
}

}  // namespace

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
    refuse_other_day(option, text, lessons);
    const std::size_t dash = text.find('-');
    const auto first = whole_number(std::string_view(text).substr(0, dash));
    const auto last = dash == std::string::npos ? first : whole_number(std::string_view(text).substr(dash + 1));
    if (!first || !last || *first < 1 || *last < *first || *last > static_cast<std::int64_t>(all))
        throw Misuse(option + " takes a lesson, the first and the last of several such as 3-4, or its day, from 1 to " +
                     std::to_string(all) + ", not \"" + text + "\"");
    return {static_cast<std::size_t>(*first - 1), static_cast<std::size_t>(*last - 1)};
}

bool is_as_kept(Syllabus plan, Syllabus kept) {
    plan.planned_on = kept.planned_on;
    plan.revision = kept.revision;
    for (auto* tellings : {&plan.unmet, &plan.remarks, &kept.unmet, &kept.remarks})
        for (syllabus::Telling& telling : *tellings) telling = syllabus::InWords{report::in_words(telling)};
    return plan == kept;
}

}  // namespace cli
