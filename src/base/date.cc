// Tested by date_test.cc.
#include "base/date.h"

#include <algorithm>
#include <array>
#include <cctype>

#include "base/invariant.h"

namespace base {

namespace {

constexpr std::array<std::string_view, 7> kWeekdays{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                                    "Thursday", "Friday", "Saturday"};
constexpr std::array<std::string_view, 12> kMonths{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                   "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
constexpr std::size_t kFewestLetters = 3;

constexpr bool is_digit(char c) noexcept { return c >= '0' && c <= '9'; }

bool is_written_as_date(std::string_view text) noexcept {
    constexpr std::string_view kShape = "dddd-dd-dd";
    return std::equal(text.begin(), text.end(), kShape.begin(), kShape.end(),
                      [](char c, char shape) { return shape == 'd' ? is_digit(c) : c == shape; });
}

unsigned number(std::string_view digits) noexcept {
    unsigned value = 0;
    for (const char c : digits) value = value * 10 + static_cast<unsigned>(c - '0');
    return value;
}

std::string padded(unsigned value, std::size_t width) {
    const std::string digits = std::to_string(value);
    return std::string(width - std::min(width, digits.size()), '0') + digits;
}

}  // namespace

Date read_date(std::string_view text) {
    if (!is_written_as_date(text))
        throw DateFault("\"" + std::string(text) + "\" is no date; write it as year-month-day, such as 2027-01-12");
    const std::chrono::year_month_day day{std::chrono::year(static_cast<int>(number(text.substr(0, 4)))),
                                          std::chrono::month(number(text.substr(5, 2))),
                                          std::chrono::day(number(text.substr(8, 2)))};
    if (!day.ok()) throw DateFault("there is no day " + std::string(text) + " in the calendar");
    return day;
}

std::string to_string(Date date) {
    const std::chrono::year_month_day day(date);
    const int year = static_cast<int>(day.year());
    INVARIANT(year >= 0 && year <= 9999);
    return padded(static_cast<unsigned>(year), 4) + "-" + padded(static_cast<unsigned>(day.month()), 2) + "-" +
           padded(static_cast<unsigned>(day.day()), 2);
}

std::string in_words(Date date) {
    const std::chrono::year_month_day day(date);
    return std::string(weekday_name(weekday_of(date)).substr(0, 3)) + " " +
           std::to_string(static_cast<unsigned>(day.day())) + " " +
           std::string(kMonths[static_cast<unsigned>(day.month()) - 1]) + " " +
           std::to_string(static_cast<int>(day.year()));
}

std::optional<std::chrono::weekday> parse_weekday(std::string_view word) noexcept {
    if (word.size() < kFewestLetters) return std::nullopt;
    for (unsigned day = 0; day < kWeekdays.size(); ++day) {
        const std::string_view name = kWeekdays[day];
        if (word.size() <= name.size() && std::equal(word.begin(), word.end(), name.begin(), [](char a, char b) {
                return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
            }))
            return std::chrono::weekday(day);
    }
    return std::nullopt;
}

std::string_view weekday_name(std::chrono::weekday day) noexcept { return kWeekdays[day.c_encoding()]; }

}  // namespace base
