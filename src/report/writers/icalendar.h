// Events as calendars exchange them. Source: RFC 5545, Internet Calendaring and Scheduling Core Object Specification.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"

namespace report {

// Local time wherever the calendar is read: no zone is claimed (RFC 5545, 3.3.5, form 1).
struct ClockTime {
    int minutes = 0;  // since midnight, 0 to 1439
    int lasts = 60;   // minutes, 1 or more
};

struct CalendarEvent {
    std::string uid;  // the same for the same event for ever (3.8.4.7)
    base::Date day;
    std::optional<ClockTime> time;  // without one it is all day
    base::Date stamp;               // when it was written down (3.8.7.2), counted as midnight UTC
    std::int64_t sequence = 0;      // how often it was changed (3.8.7.4)
    bool is_cancelled = false;
    std::string summary;
    std::string description;  // may have line ends; none when empty
};

// One VCALENDAR; lines end in CR LF and are folded. Texts are UTF-8; control characters in them become blanks.
std::string render_calendar(std::string_view product, const std::vector<CalendarEvent>& events);

// 3.1: in lines of at most 75 octets, each after the first begun with a blank, CR LF after each; no UTF-8 sequence is
// split.
std::string fold_content_line(std::string_view line);

// 3.3.11: backslash, semicolon, comma and line ends escaped.
std::string escape_calendar_text(std::string_view text);

}  // namespace report
