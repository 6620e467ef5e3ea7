// The text of a chord symbol, moved with the key it stands in. ABC 2.1, section 4.18.
#pragma once

#include <string>
#include <string_view>

#include "abc/interval.h"

namespace abc {

// `Am7`, `F#m/C#`, `Bb(no3)`, `G(Em)`, `/B`, several parted by blanks or `;`: roots and basses are moved, their
// spelling kept beside the new signature of `fifths` sharps; a sign in Unicode stays one. A text that is no chord comes
// back as it is, and so do an annotation and `f`, which is a dynamic.
std::string moved_chord(std::string_view text, const Interval& interval, int fifths);

// The same of every "quoted" text in a value: of `s:`, of `U:`.
std::string moved_quoted_chords(std::string_view text, const Interval& interval, int fifths);

}  // namespace abc
