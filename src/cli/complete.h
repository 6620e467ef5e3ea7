// What may come next on a command line: the shells ask it when Tab is pressed.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace cli {

// `words`: those behind the program's name, as a shell has them (quotes may still be around them); the last is the one
// that is being typed and may be empty. A line for each word that may stand there: the word, and behind a tab what it
// is, where there is something to say. The line `:files` stands for the names of files. Never throws: where nothing is
// known, or the library cannot be read, there is nothing to say.
std::string complete(const CLI::App& program, const std::vector<std::string>& words) noexcept;

}  // namespace cli
