// Which word somebody may have meant.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace cli {

// Of `known` the one that is hardly misspelt. Source: house choice: one mistake in three letters.
std::optional<std::string> nearest_word(const std::vector<std::string>& known, const std::string& written);

// ` (tunes?)`, or nothing.
std::string hint(const std::optional<std::string>& meant);

}  // namespace cli
