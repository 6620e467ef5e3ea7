// `--help` in lines that fit the page.
#pragma once

#include <CLI/CLI.hpp>
#include <cstddef>
#include <memory>

namespace cli {

// No line is wider than `columns` as long as no word is; commands of examples go on below with a backslash, so that
// they can be copied as they stand.
std::shared_ptr<CLI::Formatter> help_for(std::size_t columns);

}  // namespace cli
