// Tested by macro_test.cc and moved_test.cc.
#include "abc/scale_step.h"

#include "abc/characters.h"

namespace abc {

int scale_step(char letter, std::string_view marks) {
    const bool low = is_upper(letter);
    int step = ((low ? letter - 'A' : letter - 'a') + 5) % 7 + (low ? 0 : 7);
    for (const char mark : marks) step += mark == '\'' ? 7 : -7;
    return step;
}

std::string written_step(int step) {
    const int octave = step >= 0 ? step / 7 : (step - 6) / 7;
    const int letter = step - 7 * octave;
    std::string text(1, octave >= 1 ? "cdefgab"[letter] : "CDEFGAB"[letter]);
    for (int up = 1; up < octave; ++up) text += '\'';
    for (int down = 0; down > octave; --down) text += ',';
    return text;
}

}  // namespace abc
