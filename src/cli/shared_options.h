// The options that most commands have.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

#include "cli/terminal.h"

namespace cli {

void add_format(CLI::App& command, Format& format);  // `--json`, `--csv`; not both
void add_library(CLI::App& command, std::string& library);

}  // namespace cli
