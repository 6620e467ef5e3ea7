// `@NAME` in NOTES, for a command that needs no library otherwise.
#pragma once

#include <string>

#include "music/note_expression.h"

namespace cli {

// The notes of an instrument of that name, else those of a player of `library`, as `--library` has it: looked into only
// then, and where there is one.
music::NamedNotes names_in(const std::string& library);

}  // namespace cli
