#include "cli/day_option.h"

#include "cli/terminal.h"
#include "tune/player.h"

namespace cli {

base::Date day_of(const std::string& option, const std::optional<std::string>& written) {
    if (!written) return today();
    try {
        const base::Date day = base::read_date(*written);
        if (!tune::is_sayable(day))
            throw Misuse(option + " takes a day of the years " + std::to_string(tune::kFirstYear) + " to " +
                         std::to_string(tune::kLastYear) + ", not " + *written);
        return day;
    } catch (const base::DateFault& fault) {
        throw Misuse(option + ": " + fault.what());
    }
}

base::Date date_of(const std::string& option, const std::string& text) {
    try {
        return base::read_date(text);
    } catch (const base::DateFault& fault) {
        throw Misuse(option + ": " + fault.what());
    }
}

}  // namespace cli
