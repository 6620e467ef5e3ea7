// The lines of one block as tokens: which are fields, directives, comments, music. ABC 2.1, sections 2.2, 3 and 6.1.1.
#pragma once

#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "abc/dialect.h"
#include "abc/token.h"
#include "abc/tunebook.h"
#include "base/diagnostics.h"
#include "base/source_file.h"

namespace abc {

// A macro at work. The tokens of what it puts there all begin where its use begins.
struct MacroUse {
    base::Span where;
    std::string_view text;  // what stands there instead; borrowed from the Tokens
};

// Owns the texts of expanded macros; its other texts are borrowed from the source.
struct Tokens {
    std::vector<Token> all;
    std::deque<std::string> expansions;
    std::vector<MacroUse> macro_uses;  // in the order of the source

    void clear() {
        all.clear();
        expansions.clear();
        macro_uses.clear();
    }
};

// Lines longer than this are left out with a finding: no person wrote them. Source: house choice.
inline constexpr std::size_t kMaxLineBytes = 1U << 20;

// A tune longer than this is left out with a finding. Source: house choice; the longest known sets of variations are
// far below.
inline constexpr std::size_t kMaxTuneBytes = 4U << 20;

// `dialect` comes in as the file header left it and goes out as the block left it. `tokens` is emptied first.
void read_tokens(const base::SourceFile& source, const Block& block, Dialect& dialect, Tokens& tokens,
                 base::Diagnostics& diagnostics);

}  // namespace abc
