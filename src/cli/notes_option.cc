#include "cli/notes_option.h"

#include <filesystem>

#include "answers/player_named.h"
#include "cli/terminal.h"
#include "instruments/known.h"
#include "library/library.h"

namespace cli {

music::NamedNotes names_in(const std::string& library) {
    return [&library](std::string_view name) -> std::optional<music::NoteSet> {
        if (const instruments::Instrument* known = instruments::find(name)) return known->note_set();
        const std::filesystem::path file = library_file(library);
        std::error_code unknown;
        if (!std::filesystem::exists(file, unknown)) return std::nullopt;
        return answers::names_in(library::Library::open_existing(file))(name);
    };
}

}  // namespace cli
