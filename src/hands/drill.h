// What to play when a note is new: all the notes up and down, then the new one between its neighbours.
#pragma once

#include <string_view>
#include <vector>

#include "hands/line.h"
#include "music/note_set.h"

namespace hands {

// Notes of one length, in bars; MIDI.
struct Passage {
    enum class Kind : std::uint8_t { up_and_down, around };

    Kind kind = Kind::up_and_down;
    int about = 0;  // of a passage around a note: that note; of others nothing
    std::vector<std::vector<int>> bars;

    friend bool operator==(const Passage&, const Passage&) = default;
};

// `up-and-down`, `around`.
std::string_view passage_token(Passage::Kind kind) noexcept;

// Notes to a bar. Source: house choice.
constexpr std::size_t kNotesPerBar = 4;

// Up and down over all of `notes`, then around each of `fresh` that is among them, ascending, with two notes that lie
// next to it on each side: of another letter each, as a signature of so many `fifths` spells them, since a new C is
// learnt between B and D. Empty without notes.
std::vector<Passage> make_drill(const music::NoteSet& notes, const music::NoteSet& fresh, int fifths = 0);

// The same as notes to be fingered, unhurried: every note a crotchet.
std::vector<LineNote> line_of(const Passage& passage);

}  // namespace hands
