// NOTES on the command line, and whose notes a name means.
#pragma once

#include <string>

#include "cli/terminal.h"
#include "instruments/instrument.h"
#include "music/note_expression.h"

namespace cli {

// Runs a reading of NOTES and says which option it was for: throws Misuse.
template <typename Read>
auto read_option(const std::string& option, const std::string& text, Read read) {
    try {
        return read(text);
    } catch (const music::NoteExpressionFault& fault) {
        throw Misuse(option + ": " + fault.what());
    }
}

// `@NAME`: the notes of an instrument of that name, else those of a player of `library`, as `--library` has it (looked
// into only then; a blank of the player's name is written `-`, see tune::fold_player_name).
music::NamedNotes names_in(const std::string& library);

// With an instrument (it may be null), names mean its notes within its usual compass, and a note it has not is left out
// and told.
music::NoteSet notes_of(const std::string& option, const std::string& text, const instruments::Instrument* instrument,
                        const music::NamedNotes& named);

}  // namespace cli
