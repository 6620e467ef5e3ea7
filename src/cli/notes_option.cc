#include "cli/notes_option.h"

#include <filesystem>

#include "cli/player_named.h"
#include "instruments/known.h"
#include "music/pitch.h"

namespace cli {

namespace {

std::optional<music::NoteSet> notes_of_player(const std::string& file, const std::string& name) {
    const std::filesystem::path path = library_file(file);
    std::error_code unknown;
    if (!std::filesystem::exists(path, unknown)) return std::nullopt;
    const library::Library library = library::Library::open_existing(path);
    const auto record = library.player_named(name);
    return record ? std::optional(some_notes_of(library, *record)) : std::nullopt;
}

// Names and scales mean what is at hand of them; a note written with its octave was meant.
void tell_left_out(const std::string& option, const std::string& text, const instruments::Instrument& instrument,
                   const music::NoteSet& left_out) {
    std::string names;
    for (const int midi : left_out.midi_numbers()) {
        const std::string name = music::to_string(music::spell_midi(midi));
        if (text.find(name) != std::string::npos) names += (names.empty() ? "" : ", ") + name;
    }
    if (!names.empty())
        write_notice("gamut: " + option + ": " + instrument.title + " has no " + names + "; left out\n");
}

}  // namespace

music::NamedNotes names_in(const std::string& library) {
    return [&library](std::string_view name) {
        const instruments::Instrument* known = instruments::find(name);
        return known ? std::optional(known->note_set()) : notes_of_player(library, std::string(name));
    };
}

music::NoteSet notes_of(const std::string& option, const std::string& text, const instruments::Instrument* instrument,
                        const music::NamedNotes& named) {
    const music::Compass compass = instrument ? instrument->core : music::Compass();
    const music::NoteSet notes = read_option(
        option, text, [&](const std::string& expression) { return music::read_notes(expression, compass, named); });
    if (instrument == nullptr) return notes;
    tell_left_out(option, text, *instrument, notes.without(instrument->note_set()));
    const music::NoteSet at_hand = notes & instrument->note_set();
    if (at_hand.empty()) throw Misuse(option + ": none of these is a note of " + instrument->title);
    return at_hand;
}

}  // namespace cli
