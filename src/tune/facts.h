// What is known of a setting: computed from its melody, kept beside what its file states.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "music/key.h"
#include "music/meter.h"
#include "music/note_set.h"
#include "tune/finding.h"
#include "tune/outline.h"
#include "tune/scrap.h"
#include "tune/structure.h"

namespace tune {

// Raised whenever analysis would answer differently for the same melody: facts of an older version are made anew.
constexpr int kAnalysisVersion = 4;

// Where one needed note stands. Bars count from 1 as written; a pick-up has no number of its own and is 0 at the start.
struct NoteUse {
    int midi = 60;
    int count = 0;          // note heads, tied continuations left out
    int strong = 0;         // of these, on a strong beat
    std::vector<int> bars;  // ascending, without repeats

    friend bool operator==(const NoteUse&, const NoteUse&) = default;
};

// The tonic and mode the notes speak for. `candidates` runs from the likeliest, is never empty, and its first is the
// answer when decided.
struct KeyFinding {
    std::vector<music::Key> candidates;
    bool decided = false;
    std::vector<std::string> evidence;  // in words, for `gamut tune`
    // What K: says, where the notes do not decide and it is among the candidates.
    std::optional<music::Key> stated = std::nullopt;

    // What the tune is called by.
    const music::Key& headline() const { return stated ? *stated : candidates.front(); }
    Basis basis() const { return stated ? Basis::stated : Basis::computed; }

    friend bool operator==(const KeyFinding&, const KeyFinding&) = default;
};

struct TuneFacts {
    music::NoteSet needed;          // melody notes of the first voice
    music::NoteSet ornaments;       // grace notes
    std::vector<NoteUse> uses;      // one per needed note, ascending
    int note_count = 0;             // note heads, tied continuations left out
    std::optional<int> first_note;  // MIDI; the top note of a chord
    std::optional<int> last_note;   // where a player ends, not what leads back to the beginning
    int bars = 0;                   // written bars
    int different_bars = 0;         // by notes and lengths
    Finding<music::Meter> meter;
    std::optional<Finding<std::string>> rhythm;  // a token: `reel`, `jig`, `slip jig` ...
    // Tokens, likeliest first: beside a computed rhythm those that cannot be ruled out, beside a stated one that its
    // meter contradicts those that the meter allows.
    std::vector<std::string> rhythm_possible;
    std::optional<KeyFinding> key;         // empty when there is no note
    std::vector<music::Key> keys_in_turn;  // of the music under each K:, where K: changes; empty where it does not
    std::vector<std::optional<KeyFinding>>
        part_keys;                                // of each of structure.parts alone; empty for a part without a note
    std::vector<music::Key> differing_part_keys;  // the likeliest, one a part; empty where no part has a key of its own
    Structure structure;
    std::vector<std::vector<int>>
        equal_bars;              // numbers of bars that are alike, two or more to a group; groups by their first
    std::optional<Scrap> scrap;  // empty for a tune
    Leaps leaps;
    std::vector<LoneNote> lone_notes;  // ascending by pitch
    Outline outline;                   // what comparing and finding by ear look at
    std::optional<std::uint64_t>
        melody_class;               // equal for exactly the same tune in any key; empty when too short to say
    std::uint64_t melody_hash = 0;  // of the sounding notes and lengths: equal for two copies of one setting

    friend bool operator==(const TuneFacts&, const TuneFacts&) = default;
};

}  // namespace tune
