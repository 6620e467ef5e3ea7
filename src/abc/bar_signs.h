// A run of bar signs, `|` `[` `]` `:` without a blank between. ABC 2.1, section 4.8.
#pragma once

#include <string_view>

namespace abc {

struct BarSigns {
    bool closes = false;    // a repeat ends here
    bool opens = false;     // a repeat begins here
    bool is_thick = false;  // a double or thick line is among them: a part ends
};

// The union of what its signs say. Colons before the first line close a repeat, those behind the last one open one. One
// colon between two lines closes, as all do of O'Neill's Music of Ireland (11 of `|:|`, at the end of tunes) and Ryan's
// Mammoth Collection (18 of `[|]:|`); two between them do both. A single `:` says nothing, and neither does `[|]`,
// which is not seen.
BarSigns read_bar_signs(std::string_view run);

}  // namespace abc
