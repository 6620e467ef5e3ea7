// A player on the command line who is known by nothing but their notes.
#pragma once

#include <string>

#include "instruments/instrument.h"
#include "music/note_expression.h"
#include "planner/together.h"

namespace cli {

// `NOTES`, `NAME=NOTES`, `NAME on INSTRUMENT=NOTES`, or `NAME on INSTRUMENT` for all of its notes. Without an
// instrument of their own they play `usual`, which may be null: then any note can be learnt. The name is empty where
// none is given. Throws Misuse that names the option.
planner::Member read_member(const std::string& option, const std::string& text, const instruments::Instrument* usual,
                            const music::NamedNotes& named);

}  // namespace cli
