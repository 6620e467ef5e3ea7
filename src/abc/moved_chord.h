// The text of a chord symbol, moved with the key it stands in. ABC 2.1, section 4.18.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "abc/interval.h"

namespace abc {

// `Am7`, `F#m/C#`, `D/f+`, `Gd`, `Bb(no3)`, `G(Em)`, `/B`, several parted by blanks or `;`: roots and basses are moved,
// their spelling kept beside the new signature of `fifths` sharps; a sign in Unicode stays one, `+` for a sharp becomes
// `#`. Words, an annotation and `f`, which is a dynamic, come back as they are. Nothing where the text means a chord
// that is not understood: beside moved ones it would be wrong.
std::optional<std::string> moved_chord(std::string_view text, const Interval& interval, int fifths);

// The same of every "quoted" text in a value: of `s:`, of `U:`. `instead` stands where one is not understood; those are
// added to `lost`.
std::string moved_quoted_chords(std::string_view text, const Interval& interval, int fifths, std::string_view instead,
                                std::vector<std::string>& lost);

}  // namespace abc
