// Examples are those of RFC 5545, Internet Calendaring and Scheduling Core Object Specification (2009), whose sections
// are named beside them.
#include "report/writers/icalendar.h"

#include <catch2/catch.hpp>
#include <sstream>

#include "report/writers/syllabus_calendar.h"

using report::CalendarEvent;
using report::escape_calendar_text;
using report::fold_content_line;

namespace {

// 3.1: a line is unfolded by leaving out each CR LF that a blank follows, and that blank.
std::string unfolded(std::string text) {
    for (std::size_t at = text.find("\r\n "); at != std::string::npos; at = text.find("\r\n ", at)) text.erase(at, 3);
    return text;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);) lines.push_back(line);
    return lines;
}

bool has_line(const std::string& text, const std::string& line) {
    return ("\r\n" + text).find("\r\n" + line + "\r\n") != std::string::npos;
}

CalendarEvent event_on(const char* day) {
    CalendarEvent event;
    event.uid = "one";
    event.day = base::read_date(day);
    event.stamp = base::read_date("1996-07-04");
    event.summary = "Lesson";
    return event;
}

}  // namespace

TEST_CASE("icalendar: 3.1, a long line is folded and unfolds to itself", "[report][icalendar]") {
    CHECK(unfolded("DESCRIPTION:This is a lo\r\n ng description\r\n  that exists on a long line.\r\n") ==
          "DESCRIPTION:This is a long description that exists on a long line.\r\n");  // the section's own example
    CHECK(fold_content_line("SUMMARY:short") == "SUMMARY:short\r\n");
    CHECK(fold_content_line(std::string(75, 'x')) == std::string(75, 'x') + "\r\n");
    CHECK(fold_content_line(std::string(76, 'x')) == std::string(75, 'x') + "\r\n x\r\n");
    for (const std::string& letter : std::vector<std::string>{"x", "é", "♯", "𝄞"})
        for (std::size_t count = 0; count < 200; ++count) {
            std::string line = std::string(count % 5, 'a');
            for (std::size_t at = 0; at < count; ++at) line += letter;
            const std::string folded = fold_content_line(line);
            CHECK(unfolded(folded) == line + "\r\n");
            for (const std::string& one : lines_of(folded)) {
                CHECK(one.size() <= 76);  // 75 octets and the CR; the LF is left out here
                const std::string body = one.substr(one.starts_with(" ") ? 1 : 0);
                CHECK((body.empty() ||
                       (static_cast<unsigned char>(body[0]) & 0xC0) != 0x80));  // begins no letter's middle
            }
        }
}

TEST_CASE("icalendar: 3.3.11, TEXT", "[report][icalendar]") {
    CHECK(escape_calendar_text("Project XYZ Final Review\nConference Room - 3B\nCome Prepared.") ==
          "Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.");  // the section's own example
    CHECK(escape_calendar_text("a;b,c\\d:e\"f") == "a\\;b\\,c\\\\d:e\"f");      // a colon and a quote stand as they are
    CHECK(escape_calendar_text("a\r\nb") == "a\\nb");
    CHECK(escape_calendar_text(std::string("a\x07") + "b") == "a b");
}

TEST_CASE("icalendar: 3.3.4, DATE, and 3.3.5, DATE-TIME", "[report][icalendar]") {
    CalendarEvent event = event_on("1997-07-14");
    CHECK(has_line(report::render_calendar("-//x//y//EN", {event}), "DTSTART;VALUE=DATE:19970714"));  // 3.3.4
    event.day = base::read_date("1998-01-18");
    event.time = report::ClockTime{23 * 60, 60};
    const std::string text = report::render_calendar("-//x//y//EN", {event});
    CHECK(has_line(text, "DTSTART:19980118T230000"));  // 3.3.5, form 1: the section's own example
    CHECK(has_line(text, "DTEND:19980119T000000"));
    CHECK(has_line(text, "DTSTAMP:19960704T000000Z"));  // 3.8.7.2: in UTC, form 2
}

TEST_CASE("icalendar: 3.4 and 3.6.1, what has to be there", "[report][icalendar]") {
    CalendarEvent event = event_on("1997-07-14");
    event.is_cancelled = true;
    event.sequence = 2;
    const std::string text = report::render_calendar("-//x//y//EN", {event});
    for (const char* line : {"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//x//y//EN", "BEGIN:VEVENT", "UID:one",
                             "SEQUENCE:2", "STATUS:CANCELLED", "SUMMARY:Lesson", "END:VEVENT", "END:VCALENDAR"})
        CHECK(has_line(text, line));
    CHECK(text.starts_with("BEGIN:VCALENDAR\r\n"));
    CHECK(text.ends_with("END:VCALENDAR\r\n"));
}

TEST_CASE("calendar of a term: the same lesson has the same uid, whatever is planned for it", "[report][icalendar]") {
    syllabus::Syllabus plan;
    plan.name = "Tuesday; class";
    plan.lessons.resize(2);
    plan.lessons[0].date = base::read_date("2027-01-12");
    plan.lessons[1].date = base::read_date("2027-01-19");
    const auto uids = [](const std::string& text) {
        std::vector<std::string> found;
        for (const std::string& line : lines_of(text))
            if (line.starts_with("UID:")) found.push_back(line);
        return found;
    };
    const auto before = uids(report::syllabus_calendar(plan, std::nullopt));
    REQUIRE(before.size() == 2);
    CHECK(before[0] != before[1]);
    plan.revision = 1;
    plan.lessons[1].state = syllabus::LessonState::lost;
    const std::string text = report::syllabus_calendar(plan, std::nullopt);
    CHECK(uids(text) == before);
    CHECK(has_line(text, "SUMMARY:Tuesday\\; class\\, lesson 2"));
    CHECK(has_line(text, "STATUS:CANCELLED"));
    plan.name = "Another";
    CHECK(uids(report::syllabus_calendar(plan, std::nullopt)) != before);
}
