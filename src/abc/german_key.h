// Keys as German writes them: `Fis`, `Es-Dur`, `h-Moll`. No part of ABC, and plain all the same.
#pragma once

#include <optional>
#include <string_view>

#include "music/key.h"

namespace abc {

struct GermanTonic {
    music::NoteName name;
    bool is_small = false;  // `fis`: minor, where no mode is written
};

// Takes from the front of `text` a name that only German has, where nothing but a mode, accidentals or words apart
// stand behind it. `B` stays the standard's B, unless `Dur` or `Moll` stands behind it: then it is B flat.
std::optional<GermanTonic> take_german_tonic(std::string_view& text);

// `Dur`, `Moll`.
std::optional<music::Mode> german_mode(std::string_view word);

}  // namespace abc
