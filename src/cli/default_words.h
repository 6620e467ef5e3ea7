// What acts where an option is left out, for the end of the option's line.
#pragma once

#include <concepts>
#include <string>
#include <string_view>

namespace cli {

// ` (default 3)`, of the constant that acts.
inline std::string default_words(std::string_view word) { return " (default " + std::string(word) + ")"; }
std::string default_words(std::integral auto number) { return default_words(std::to_string(number)); }

}  // namespace cli
