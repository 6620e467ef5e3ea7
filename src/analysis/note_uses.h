// Which notes a melody needs and where each stands.
#pragma once

#include <optional>
#include <vector>

#include "music/melody.h"
#include "music/note_set.h"
#include "tune/facts.h"

namespace analysis {

struct NoteUses {
    music::NoteSet needed;
    music::NoteSet ornaments;
    std::vector<tune::NoteUse> uses;  // ascending by pitch
    int note_count = 0;               // tied continuations left out
    std::optional<int> first_note;    // the top note of a chord
    std::optional<int> last_note;     // where a player ends: tune_end.h
};

NoteUses find_note_uses(const music::Melody& melody);

// MIDI. `sound` must have a note head.
int top_note(const music::Melody& melody, const music::Sound& sound);

// On a strong beat (music::is_strong); a pick-up lies at the end of its bar. False where the place in the bar is not
// known.
bool stands_strong(const music::Melody& melody, const music::Sound& sound);

// A short bar that begins a part: its notes lie at the end of the bar they lead out of.
bool is_pickup(const music::Melody& melody, std::size_t bar);

// The number of each bar as a player counts: a pick-up takes none of its own (0 at the start, later that of the bar it
// completes), a rest of four bars takes four. One for each of Melody::bars.
std::vector<int> number_bars(const music::Melody& melody);

}  // namespace analysis
