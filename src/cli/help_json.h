// `gamut help --json`: what can be typed, for a program.
#pragma once

#include <CLI/CLI.hpp>
#include <string>

namespace cli {

std::string help_as_json(const CLI::App& command);

}  // namespace cli
