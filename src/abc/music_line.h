// A line of music cut into tokens. ABC 2.1, sections 4 and 6.
#pragma once

#include <string_view>
#include <vector>

#include "abc/dialect.h"
#include "abc/token.h"
#include "base/diagnostics.h"

namespace abc {

// A piece of text to scan and where its bytes come from: `offset` + i for byte i, or offset + places[i] after macros.
struct MusicText {
    std::string_view text;
    std::uint32_t offset = 0;
    const std::vector<std::uint32_t>* places = nullptr;
};

// Appends the tokens of one line, whose comment has been cut. Every byte that is no blank belongs to a token or is
// reported.
void scan_music(const MusicText& line, const Dialect& dialect, std::vector<Token>& tokens,
                base::Diagnostics& diagnostics);

}  // namespace abc
