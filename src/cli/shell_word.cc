#include "cli/shell_word.h"

namespace cli {

std::string shell_word(const std::string& text) {
    // Source: POSIX.1-2017, Shell Command Language, 2.2 Quoting; `!` is read by interactive shells.
    if (text.find_first_of("\"$`\\!") == std::string::npos) return "\"" + text + "\"";
    std::string word = "'";
    for (const char c : text) {
        if (c == '\'')
            word += "'\\''";
        else
            word += c;
    }
    return word + "'";
}

}  // namespace cli
