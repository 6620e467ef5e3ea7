// NOTES as a player writes them: `G:major&D:major A3..B5`, `A3 B3 D4`, `G:major -C#`.
#pragma once

#include <functional>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "music/note_set.h"

namespace music {

// What could not be read, in one sentence for the person who wrote it.
class NoteExpressionFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// Lowest and highest MIDI note for note names, both included.
struct Compass {
    int lowest = 57;   // A3
    int highest = 83;  // B5. Source: house choice, the compass of most session tunes (common practice, no source)
};

// The notes meant by a name such as `whistle-d`; nothing where there is no such name.
using NamedNotes = std::function<std::optional<NoteSet>(std::string_view name)>;

// Items parted by commas or blanks: `A3` a note; `F#` that name in every octave of the compass; `G:major` the names of
// a scale; `@NAME` the notes of that name; `X&Y` what both have; `D4..B5` sets the compass for the names of the whole
// expression; a leading `-` takes away. Throws NoteExpressionFault for anything else, and when no note comes of it.
NoteSet read_notes(std::string_view text, Compass compass = {}, const NamedNotes& named = {});

// One item of a list in which the order counts.
struct NoteItem {
    NoteSet notes;
    bool is_one_note = false;  // written with its octave; else a name or a scale, whose notes are all meant
};

// The items of `C5 F# D:major` one by one, in the order written, names and scales within the compass; nothing can be
// taken away. Throws as read_notes does.
std::vector<NoteItem> read_notes_in_order(std::string_view text, Compass compass = {});

// One note, or a note name in every octave: what `--uses F#` and `--starts-on D` mean.
NoteSet read_note_anywhere(std::string_view text);

// One set of alternatives for each item of a list such as `C# F5`.
std::vector<NoteSet> read_notes_anywhere(std::string_view text);

}  // namespace music
