// `K:` in full: tonic, mode, accidentals, clef and transposition. ABC 2.1, sections 3.1.14 and 4.6.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "abc/codes.h"
#include "base/span.h"
#include "music/key.h"

namespace abc {

// What `K:` and `V:` say of octave and transposition. Each part is empty where nothing is said of it.
struct Shift {
    std::optional<int> clef_octaves;  // +8 / -8 at a clef's end: one octave up or down
    std::optional<int> octaves;       // octave=
    std::optional<int> semitones;     // transpose=, t=
};

// A fault of the text, without a place: the caller knows where the field stands.
struct FieldFault {
    Code code;
    std::string message;
};

// Where the words of a key stand, in byte offsets into the text of its field. Empty where there is no such word.
struct KeyWords {
    base::Span tonic;                     // with its sign: `Bb`, `F sharp`; also `Hp`
    base::Span mode;                      // `dor`; also `exp` and `none`
    bool in_german = false;               // `Fis-moll`: the name or the mode is
    std::vector<base::Span> accidentals;  // each with its letter: `^f`
};

struct KeyField {
    std::optional<music::StatedKey> key;  // empty where only clef words stand: no key is spoken of
    music::Signature signature{};         // of `key`, with the added accidentals
    Shift shift;
    KeyWords words;
    // Letters that may have been meant for the key and were not understood: `n` of `K:Bn`, or the whole text where
    // there is no key in it.
    std::string not_understood;
    std::vector<FieldFault> faults;
};

KeyField read_key_field(std::string_view text);

// One word of `K:` or `V:` that may speak of octave or transposition (`treble-8`, `clef=bass`, `octave=1`, `t=-2`,
// ...). Returns whether the word is of that kind; clef names and middle= are of it and shift nothing.
bool read_clef_word(std::string_view word, Shift& shift);

}  // namespace abc
