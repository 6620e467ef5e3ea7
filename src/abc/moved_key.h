// The text of a `K:` field, so many semitones away.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace abc {

struct MovedKey {
    std::string text;
    bool was_pipes = false;  // `Hp` has no other place to stand: written as tonic and mode
};

// Tonic and added accidentals are moved, everything else stays as it was written: mode, clef, octave, transposition,
// words. A text that names no key, or `none`, comes back as it is. Explicit accidentals gain those the letters
// without one need in the new place. Nothing where an accidental would need more than a double sign.
std::optional<MovedKey> moved_key(std::string_view text, int semitones);

}  // namespace abc
