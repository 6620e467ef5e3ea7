#include "cli/day_option.h"

#include "cli/terminal.h"
#include "tune/player.h"

namespace cli {

namespace {

// Source: a leap year; house choice.
constexpr std::chrono::days kFarAhead{366};

}  // namespace

base::Date day_of(const std::string& option, const std::optional<std::string>& written) {
    if (!written) return today();
    try {
        const base::Date day = base::read_date(*written);
        if (!tune::is_sayable(day))
            throw Misuse(option + " takes a day of the years " + std::to_string(tune::kFirstYear) + " to " +
                         std::to_string(tune::kLastYear) + ", not " + *written);
        if (day - today() > kFarAhead)
            write_notice("gamut: " + option + ": " + *written + " is more than a year ahead; taken as written\n");
        return day;
    } catch (const base::DateFault& fault) {
        throw Misuse(option + ": " + fault.what());
    }
}

}  // namespace cli
