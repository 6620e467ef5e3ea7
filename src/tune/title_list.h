// A list of titles as people keep one: on paper, in a message, in a table.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace tune {

struct ListedTitle {
    std::uint32_t line = 1;
    std::string text;     // UTF-8, never empty
    bool is_utf8 = true;  // as it came
};

// One title a line. Left out: what stands before it (`1.`, `12)`, `-`, `*`, a bullet, a box to tick, ticked or not, and
// several of these), what stands behind a tab, blanks around it, empty lines, and lines that begin with `#`. A number
// without a sign behind it belongs to the title. A line that is not UTF-8 is read as Windows-1252, each for itself; a
// byte order mark is dropped.
std::vector<ListedTitle> read_title_list(std::string_view bytes);

}  // namespace tune
