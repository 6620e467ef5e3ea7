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
    std::vector<tune::NoteUse> uses;    // ascending by pitch
    int note_count = 0;                 // tied continuations left out
    std::optional<int> first_note;      // the top note of a chord
    std::optional<int> last_note;
};

NoteUses find_note_uses(const music::Melody& melody);

// A short bar that begins a part: its notes lie at the end of the bar they lead out of.
bool is_pickup(const music::Melody& melody, std::size_t bar);

}  // namespace analysis
