// The kind of tune a title names.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace analysis {

// A kind at the end of a title (`The Ferry Reel`, `The Ferry -- REEL.`, `Ferry Jig, The`, `The Ferry Hornpipe (No.
// 2)`), or at its beginning before `of` or `for` (`Reel of the Ferry`, `Lament for the Ferry`); `Slow` in brackets or
// at either end; `Planxty` at the beginning. A token of rhythm_words.h. A word that a preposition leads into (`The Ides
// of March`) names nothing. Source: common practice, no source.
std::optional<std::string> rhythm_of_title(std::string_view title);

}  // namespace analysis
