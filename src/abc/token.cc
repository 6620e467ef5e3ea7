#include "abc/token.h"

#include <array>

namespace abc {

std::string_view token_kind_name(TokenKind kind) noexcept {
    static constexpr std::array<std::string_view, 26> kNames{
        "field",       "continued field", "directive",     "comment",       "note",        "rest",
        "bar rest",    "spacer",          "chord",         "chord end",     "grace notes", "grace notes end",
        "bar",         "ending",          "tuplet",        "broken rhythm", "tie",         "slur",
        "overlay",     "decoration",      "symbol letter", "chord symbol",  "annotation",  "line break",
        "joined line", "skipped"};
    return kNames[static_cast<std::size_t>(kind)];
}

}  // namespace abc
