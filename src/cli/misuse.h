// What was wrong with the words on the command line, in a sentence of ours.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace cli {

// For what CLI11 could not take; says what would have been right where that can be guessed.
std::string sentence_of(const CLI::App& program, const CLI::ParseError& error);

}  // namespace cli
