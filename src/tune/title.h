// Titles as people look for them.
#pragma once

#include <string>
#include <string_view>

namespace tune {

// For comparing: accents and case dropped, punctuation and runs of blanks made one blank, a leading or trailing article
// (`The Ferry`, `Ferry, The`, also a, an, le, la, les, die, der, das, an t-) left out.
std::string fold_title(std::string_view title);

// A blank, a tab or any other control character of ASCII: nothing to read.
bool is_blank(char c) noexcept;
std::string_view without_blanks_around(std::string_view text) noexcept;

// Stands where a tune has no title.
inline constexpr std::string_view kNoTitle = "(no title)";

// The title, or what stands for it where it is empty.
inline std::string title_or_none(const std::string& title) { return title.empty() ? std::string(kNoTitle) : title; }

}  // namespace tune
