// Commands that a remark suggests, so that they can be typed as they stand.
#pragma once

#include <string>

namespace cli {

// As one word of a POSIX shell: in double quotes, or in single ones where the text has a sign that means something
// there.
std::string shell_word(const std::string& text);

}  // namespace cli
