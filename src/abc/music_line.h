// A line of music cut into tokens. ABC 2.1, sections 4 and 6.
#pragma once

#include <vector>

#include "abc/dialect.h"
#include "abc/music_text.h"
#include "abc/token.h"
#include "base/diagnostics.h"

namespace abc {

// Appends the tokens of one line, whose comment has been cut. Every byte that is no blank belongs to a token or is
// reported.
void scan_music(const MusicText& line, const Dialect& dialect, std::vector<Token>& tokens,
                base::Diagnostics& diagnostics);

}  // namespace abc
