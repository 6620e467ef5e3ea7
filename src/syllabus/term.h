// The dates of a term: one lesson a week on one weekday, none in a break.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"

namespace syllabus {

// Source: house choice; four years of weekly lessons are no term.
constexpr int kMostLessons = 200;

// A wait longer than this is a break after which the first lesson only goes over what was learnt. Source: common
// practice, no source.
constexpr std::chrono::days kLongestWait{14};

// Why dates make no term, in one sentence for the person who wrote them.
class TermFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// Both days are part of it.
struct DateRange {
    base::Date first;
    base::Date last;

    friend bool operator==(const DateRange&, const DateRange&) = default;
};

// `2027-02-16`, or `2027-02-15..2027-02-19`.
std::string to_string(const DateRange& range);

// What to_string wrote. Throws TermFault.
DateRange read_break(std::string_view text);

struct TermDates {
    base::Date from;                         // no lesson is held before
    std::optional<std::chrono::weekday> on;  // that of `from` when nothing is said
    int lessons = 10;                        // held, 1 to kMostLessons
    std::vector<DateRange> breaks;
};

// As many dates as lessons, a whole number of weeks apart, the first on or after `from`. Throws TermFault for a number
// of lessons out of range, a break that lies outside the term, and a term that runs beyond the year 9999.
std::vector<base::Date> lesson_dates(const TermDates& term);

}  // namespace syllabus
