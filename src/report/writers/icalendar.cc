// Tested by icalendar_test.cc.
#include "report/writers/icalendar.h"

#include <fmt/format.h>

#include "base/utf8.h"

namespace report {

namespace {

constexpr std::size_t kLongestLine = 75;  // octets, the line end left out. Source: RFC 5545, 3.1
constexpr int kMinutesADay = 24 * 60;

// 3.3.4
std::string date_value(base::Date day) {
    const std::chrono::year_month_day date(day);
    return fmt::format("{:04}{:02}{:02}", static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                       static_cast<unsigned>(date.day()));
}

// 3.3.5, form 1. `minutes` may lie beyond midnight.
std::string local_value(base::Date day, int minutes) {
    day += std::chrono::days(minutes / kMinutesADay);
    minutes %= kMinutesADay;
    return fmt::format("{}T{:02}{:02}00", date_value(day), minutes / 60, minutes % 60);
}

}  // namespace

std::string fold_content_line(std::string_view line) {
    std::string folded;
    std::size_t room = kLongestLine;
    while (line.size() > room) {
        std::size_t cut = room;
        while (cut > 1 && base::is_continuation_byte(line[cut])) --cut;
        folded += std::string(line.substr(0, cut)) + "\r\n ";
        line.remove_prefix(cut);
        room = kLongestLine - 1;  // the blank counts
    }
    return folded + std::string(line) + "\r\n";
}

std::string escape_calendar_text(std::string_view text) {
    std::string escaped;
    std::string piece;
    const auto end_piece = [&] {
        for (const char c : base::printable(piece)) {
            if (c == '\\' || c == ';' || c == ',') escaped += '\\';
            escaped += c;
        }
        piece.clear();
    };
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] == '\r' && at + 1 < text.size() && text[at + 1] == '\n') continue;
        if (text[at] == '\n') {
            end_piece();
            escaped += "\\n";
        } else {
            piece += text[at];
        }
    }
    end_piece();
    return escaped;
}

std::string render_calendar(std::string_view product, const std::vector<CalendarEvent>& events) {
    std::string out;
    const auto line = [&out](const std::string& text) { out += fold_content_line(text); };
    line("BEGIN:VCALENDAR");
    line("VERSION:2.0");
    line("PRODID:" + escape_calendar_text(product));
    for (const CalendarEvent& event : events) {
        line("BEGIN:VEVENT");
        line("UID:" + escape_calendar_text(event.uid));
        line("DTSTAMP:" + date_value(event.stamp) + "T000000Z");
        if (event.time) {
            line("DTSTART:" + local_value(event.day, event.time->minutes));
            line("DTEND:" + local_value(event.day, event.time->minutes + event.time->lasts));
        } else {
            line("DTSTART;VALUE=DATE:" + date_value(event.day));
        }
        line(fmt::format("SEQUENCE:{}", event.sequence));
        line(event.is_cancelled ? "STATUS:CANCELLED" : "STATUS:CONFIRMED");
        line("SUMMARY:" + escape_calendar_text(event.summary));
        if (!event.description.empty()) line("DESCRIPTION:" + escape_calendar_text(event.description));
        line("END:VEVENT");
    }
    line("END:VCALENDAR");
    return out;
}

}  // namespace report
