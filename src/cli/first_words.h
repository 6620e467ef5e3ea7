// What is said when somebody does not know the commands yet.
#pragma once

#include <CLI/CLI.hpp>
#include <cstddef>
#include <string>

namespace cli {

// For `gamut` alone: what one can ask, and which library answers.
std::string first_words(std::size_t width_chars);

// For a first word that is no command: the one that is meant, by spelling or because other programs call it so.
std::string no_such_command(const CLI::App& program, const std::string& word);

}  // namespace cli
