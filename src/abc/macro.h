// Macros: text put in place of text, before music is read. ABC 2.1, section 9.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "abc/dialect.h"
#include "base/span.h"

namespace abc {

// A line of music after expansion. `places[i]` is the byte of the written line that the i-th byte came from; an
// expansion points at the start of what it replaces.
struct ExpandedLine {
    std::string text;
    std::vector<std::uint32_t> places;
    struct Use {
        base::Span written;   // of the written line: what was replaced
        base::Span replaced;  // of `text`: by what
    };
    std::vector<Use> uses;
};

// `~G3 = G{A}G{F}G`. Nothing where the standard's limits are broken: no `=`, an empty side, a target above 31
// characters, a replacement above 200, or an `n` that is not the last letter of the target.
std::optional<Macro> read_macro(std::string_view text);

// Adds to the list; the same target set again is replaced.
void set_macro(std::vector<Macro>& macros, Macro macro);

// How long a line may grow; beyond, what is left of it is not searched for macros. Source: house choice, against
// hostile files.
inline constexpr std::size_t kMaxExpandedBytes = 1U << 20;

// Nothing where no macro matches. Quoted text and inline fields are left alone. A replacement is not searched again.
std::optional<ExpandedLine> expand_macros(std::string_view line, const std::vector<Macro>& macros);

}  // namespace abc
