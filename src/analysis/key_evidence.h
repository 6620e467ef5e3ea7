// What a melody says of its home note, counted before any key is thought of.
#pragma once

#include <array>
#include <cstddef>
#include <optional>

#include "music/melody.h"

namespace analysis {

// One number for each pitch class, C first.
using ByPitchClass = std::array<double, 12>;

// Of the first voice; of a chord its top note; grace notes have no say. Each kind but the last adds up to 1, or is all
// zero where there is nothing of it.
struct KeyEvidence {
    ByPitchClass time{};         // share of the sounding time
    ByPitchClass strong_time{};  // the same of notes on strong beats; of all notes where no beat is known
    ByPitchClass openings{};     // of the first two bars of each part, pick-ups left out
    ByPitchClass part_ends{};    // the last note of each part
    ByPitchClass last{};         // the last note
    ByPitchClass before_last{};  // the last note of another name
    ByPitchClass first_strong{};
    ByPitchClass last_strong{};
    ByPitchClass counts{};  // how many notes, no share
    int last_note = 60;     // MIDI
    int last_strong_note = 60;
    int notes = 0;  // how many are struck or tied
    int names = 0;  // how many pitch classes sound
};

// Nothing for a melody without notes.
std::optional<KeyEvidence> find_key_evidence(const music::Melody& melody);

}  // namespace analysis
