// The options that most commands have.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "cli/terminal.h"

namespace cli {

void add_format(CLI::App& command, Format& format);              // `--json`, `--csv`, `--html`: one of them
void add_format_without_csv(CLI::App& command, Format& format);  // of what is no list
void add_library(CLI::App& command, std::string& library);

}  // namespace cli
