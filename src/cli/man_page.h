// A manual page in Markdown, for pandoc to make one for man(1) of it.
#pragma once

#include <string>

#include "cli/command_words.h"

namespace cli {

// `program`: all there is, for what is named at the end. The commands below a command stand on its page.
std::string man_page(const CommandWords& command, const CommandWords& program);

}  // namespace cli
