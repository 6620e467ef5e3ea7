// Letters with their octave as steps of the scale, and the text ABC writes for them. ABC 2.1, section 4.1.
#pragma once

#include <string>
#include <string_view>

namespace abc {

// Steps above middle C: `C` is 0, `c` 7, `c'` 14, `B,` -1. `marks` holds , and ' alone.
int scale_step(char letter, std::string_view marks);

// The plain way to write a step: `C,`, `C`, `c`, `c'`.
std::string written_step(int step);

}  // namespace abc
