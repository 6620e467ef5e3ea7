// Numbers on the command line: what is none is told in a sentence that names the option.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace cli {

// From now on every option of the command and those below it that --help shows with N, K or MIB takes a whole number,
// and one with S any number; for another word parsing throws Misuse.
void expect_numbers(CLI::App& command);

// For what is a number and still cannot be meant.
std::string sentence_of(const CLI::ConversionError& error);

}  // namespace cli
