#include "report/writers/syllabus_calendar.h"

#include <fmt/format.h>

#include "base/utf8.h"
#include "report/words/syllabus_words.h"

namespace report {

namespace {

constexpr std::string_view kProduct = "-//gamut//syllabus//EN";  // RFC 5545, 3.7.3: a formal public identifier

// FNV-1a, 64 bits, as its authors publish it: the same name and first day give the same uid on every machine.
std::uint64_t fingerprint(std::string_view text) {
    std::uint64_t hash = 0xcbf29ce484222325U;
    for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
    return hash;
}

std::string description_of(const syllabus::Syllabus& plan, const syllabus::Lesson& lesson, bool is_last) {
    std::string text;
    const auto add = [&text](const std::string& label, const std::string& what) {
        if (!what.empty()) text += (text.empty() ? "" : "\n") + label + what;
    };
    if (!lesson.is_held()) return "not held";
    add("New note: ", notes_in_words(lesson));
    add("New: ", titles_with_rhythm(lesson.tunes));
    add("Again: ", titles_in_words(lesson.again));
    if (!is_last) return text;
    for (const syllabus::ClosingSet& set : plan.closing)
        add("To play through: ", titles_in_words(set.tunes) + " (" + minutes_in_words(set.seconds) + ")");
    return text;
}

}  // namespace

std::string syllabus_calendar(const syllabus::Syllabus& plan, const std::optional<ClockTime>& time) {
    const std::uint64_t whose = fingerprint(base::fold(plan.name) + " " + base::to_string(plan.lessons.front().date));
    std::size_t last = 0;
    for (std::size_t at = 0; at < plan.lessons.size(); ++at)
        if (plan.lessons[at].is_held()) last = at;
    std::vector<CalendarEvent> events;
    for (std::size_t at = 0; at < plan.lessons.size(); ++at) {
        const syllabus::Lesson& lesson = plan.lessons[at];
        CalendarEvent event;
        event.uid = fmt::format("gamut-{:016x}-lesson-{}", whose, at + 1);
        event.day = lesson.date;
        event.time = time;
        event.stamp = plan.planned_on;
        event.sequence = plan.revision;
        event.is_cancelled = !lesson.is_held();
        event.summary = fmt::format("{}, lesson {}", plan.name, at + 1);
        if (const std::string news = news_in_words(lesson); !news.empty() && lesson.is_held())
            event.summary += ": " + news;
        event.description = description_of(plan, lesson, at == last);
        events.push_back(std::move(event));
    }
    return render_calendar(kProduct, events);
}

}  // namespace report
