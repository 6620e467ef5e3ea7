// Tested by term_test.cc.
#include "syllabus/term.h"

#include <algorithm>

namespace syllabus {

namespace {

base::Date date_in(std::string_view text) {
    try {
        return base::read_date(text);
    } catch (const base::DateFault& fault) {
        throw TermFault(fault.what());
    }
}

}  // namespace

std::string to_string(const DateRange& range) {
    return range.first == range.last ? base::to_string(range.first)
                                     : base::to_string(range.first) + ".." + base::to_string(range.last);
}

DateRange read_break(std::string_view text) {
    const std::size_t dots = text.find("..");
    if (dots == std::string_view::npos) {
        const base::Date day = date_in(text);
        return {day, day};
    }
    const DateRange range{date_in(text.substr(0, dots)), date_in(text.substr(dots + 2))};
    if (range.last < range.first)
        throw TermFault("the break " + to_string(range) + " ends before it begins; write the first day first");
    return range;
}

std::vector<base::Date> lesson_dates(const TermDates& term) {
    using std::chrono::days;
    if (term.lessons < 1 || term.lessons > kMostLessons)
        throw TermFault("a term has from 1 to " + std::to_string(kMostLessons) + " lessons, not " +
                        std::to_string(term.lessons));
    const base::Date end = std::chrono::year(9999) / std::chrono::December / 31;
    const auto is_free = [&](base::Date day) {
        return std::none_of(term.breaks.begin(), term.breaks.end(),
                            [&](const DateRange& range) { return range.first <= day && day <= range.last; });
    };
    base::Date day = term.from;
    if (term.on) day += *term.on - base::weekday_of(day);  // 0 to 6 days
    std::vector<base::Date> dates;
    for (; dates.size() < static_cast<std::size_t>(term.lessons); day += days(7)) {
        if (day > end) throw TermFault("the term would run beyond the year 9999");
        if (is_free(day)) dates.push_back(day);
    }
    for (const DateRange& range : term.breaks)
        if (range.last < term.from || range.first > dates.back())
            throw TermFault("the break " + to_string(range) + " lies outside the term, which runs from " +
                            base::to_string(dates.front()) + " to " + base::to_string(dates.back()));
    return dates;
}

}  // namespace syllabus
