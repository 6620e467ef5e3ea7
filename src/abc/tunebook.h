// A file cut at its empty lines: header, tunes, free text. ABC 2.1, section 2.2.
#pragma once

#include <cstdint>
#include <vector>

#include "base/diagnostics.h"
#include "base/source_file.h"
#include "base/span.h"

namespace abc {

struct Block {
    enum class Kind : std::uint8_t { file_header, tune, free_text };

    Kind kind = Kind::free_text;
    base::Span where;        // from its first line to the end of its last, without the empty line
    std::uint32_t line = 1;  // of its first line
};

struct Tunebook {
    std::vector<Block> blocks;  // in file order; together they hold every line that is not empty
    bool is_strict = false;     // the file says abc 2.1 or later
};

Tunebook split_tunebook(const base::SourceFile& source, base::Diagnostics& diagnostics);

// Whether a text file holds ABC at all: somewhere an X: line with a K: line after it in the same block.
bool looks_like_abc(std::string_view text);

}  // namespace abc
