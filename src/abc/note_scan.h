// Notes, rests and tuplet signs of a line of music.
#pragma once

#include "abc/line_scan.h"

namespace abc {

// Each takes what begins at `line.at` and goes on behind it.
void scan_note(LineScan& line);  // from its accidental on
void scan_rest(LineScan& line, TokenKind kind);
void scan_tuplet(LineScan& line);

}  // namespace abc
