// A day on the command line: `--on`, `--today`.
#pragma once

#include <optional>
#include <string>

#include "base/date.h"

namespace cli {

// Today where nothing was written. Throws Misuse that names the option for what is no date, and for one outside the
// years that tune/player.h gives.
base::Date day_of(const std::string& option, const std::optional<std::string>& written);

// Any day there is. Throws Misuse that names the option.
base::Date date_of(const std::string& option, const std::string& text);

}  // namespace cli
