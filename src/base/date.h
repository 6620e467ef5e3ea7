// Days of the calendar (Gregorian, as ISO 8601 has it), without an hour and without a zone.
#pragma once

#include <chrono>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>

namespace base {

// Dates are ordered, and their difference is a number of days.
using Date = std::chrono::sys_days;

// Why a text is no date, in one sentence for the person who wrote it.
class DateFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// `2027-01-12`: a year of four digits, a month and a day of two. Source: ISO 8601, calendar date, extended format.
// Throws DateFault; a day that the month has not (`2027-02-30`) is told as such.
Date read_date(std::string_view text);

// `2027-01-12`; reads back as the same date. Years 0 to 9999.
std::string to_string(Date date);

// `Tue 12 Jan 2027`.
std::string in_words(Date date);

// `tuesday`, `Tue`: any case, three letters or more of its English name.
std::optional<std::chrono::weekday> parse_weekday(std::string_view word) noexcept;

std::string_view weekday_name(std::chrono::weekday day) noexcept;  // `Tuesday`

inline std::chrono::weekday weekday_of(Date date) noexcept { return std::chrono::weekday(date); }

}  // namespace base
