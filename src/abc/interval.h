// How far a key is moved, and what that makes of the names and letters written under it.
#pragma once

#include <string>
#include <string_view>

#include "abc/token.h"
#include "music/key.h"

namespace abc {

// A spelled interval, up where positive: C to D is 2 semitones, 1 step, 2 fifths; C to Db is 1, 1, -5.
struct Interval {
    int semitones = 0;
    int steps = 0;   // letters
    int fifths = 0;  // on the chain ... Bb F C G D ..., octaves left out
};

// From the key to music::moved of it. Whole octaves keep the spelling. `none` moves as C major does, highland pipes as
// A mixolydian, explicit accidentals as the major key of their tonic.
Interval interval_of(const music::StatedKey& key, int semitones) noexcept;

// Sharps of the signature that `key` is taken to have where it moves; negative for flats.
int fifths_of(const music::StatedKey& key) noexcept;

// The name so far away, with whatever accidental that takes: beyond a double one for remote names.
music::NoteName moved(music::NoteName name, const Interval& interval) noexcept;

// `^`, `__`, `=`: -2 to 2 semitones.
std::string_view written_sign(int accidental) noexcept;

// A note token's text cut at its parts. Sign and gap are empty where no sign is written.
struct NoteText {
    std::string_view sign;
    std::string_view gap;     // blanks that should not be there, or the fraction of a quarter tone
    std::string_view letter;  // with its octave marks
    std::string_view length;

    bool is_microtone() const noexcept { return gap.find_first_not_of(" \t") != std::string_view::npos; }
};
NoteText parts_of_note(std::string_view note) noexcept;

// Letter and marks so many steps up from middle C, in the writer's own way where the octave stays: `c,` a step up is
// `d,` and not `D`. `letter` is how the note stands now.
std::string moved_letter(std::string_view letter, int step);

}  // namespace abc
