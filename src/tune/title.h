// Titles as people look for them.
#pragma once

#include <string>
#include <string_view>

namespace tune {

// For comparing: accents and case dropped, punctuation and runs of blanks made one blank, a leading or trailing article
// (`The Ferry`, `Ferry, The`, also a, an, le, la, les, die, der, das, an t-) left out.
std::string fold_title(std::string_view title);

}  // namespace tune
