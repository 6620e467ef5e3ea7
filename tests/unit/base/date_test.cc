#include "base/date.h"

#include <catch2/catch.hpp>

using base::DateFault;
using base::read_date;

TEST_CASE("date: read as ISO 8601 and written back", "[base][date]") {
    for (const char* text : {"2027-01-12", "2024-02-29", "2000-02-29", "1999-12-31", "0001-01-01", "9999-12-31"})
        CHECK(base::to_string(read_date(text)) == text);
    CHECK(base::in_words(read_date("2027-01-12")) == "Tue 12 Jan 2027");
    CHECK(read_date("2027-03-02") - read_date("2027-02-23") == std::chrono::days(7));
    CHECK(read_date("2027-01-12") < read_date("2027-01-19"));
}

TEST_CASE("date: what is none is refused in a sentence", "[base][date]") {
    // The leap years of the Gregorian calendar: every fourth, not the hundredths, but the four hundredths.
    for (const char* text :
         {"2027-02-29", "1900-02-29", "2027-02-30", "2027-13-01", "2027-00-10", "2027-04-31", "2027-01-00"})
        CHECK_THROWS_WITH(read_date(text), "there is no day " + std::string(text) + " in the calendar");
    for (const char* text : {"", "tomorrow", "12.1.2027", "2027-1-12", "2027-01-12 ", "2027/01/12", "27-01-12"})
        CHECK_THROWS_WITH(read_date(text),
                          "\"" + std::string(text) + "\" is no date; write it as year-month-day, such as 2027-01-12");
}

TEST_CASE("date: weekdays by name", "[base][date]") {
    CHECK(base::weekday_of(read_date("2027-01-12")) == std::chrono::Tuesday);
    CHECK(base::parse_weekday("tuesday") == std::chrono::Tuesday);
    CHECK(base::parse_weekday("TUE") == std::chrono::Tuesday);
    CHECK(base::parse_weekday("thurs") == std::chrono::Thursday);
    CHECK(base::parse_weekday("Sun") == std::chrono::Sunday);
    for (const char* word : {"", "t", "tu", "tuesdays", "Dienstag", "tud"}) CHECK(!base::parse_weekday(word));
    CHECK(base::weekday_name(std::chrono::Saturday) == "Saturday");
}
