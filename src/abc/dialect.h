// What a file's own instructions change about reading: macros, the meaning of `!` and `+`.
#pragma once

#include <string>
#include <vector>

namespace abc {

// `m: target = replacement`. ABC 2.1, section 9.
struct Macro {
    std::string target;  // a transposing one ends in `n` and a length
    std::string replacement;

    bool is_transposing() const noexcept { return target.find('n') != std::string::npos; }
};

struct Dialect {
    std::vector<Macro> macros;
    bool bang_breaks_line = false;  // I:linebreak !
    bool plus_decorates = false;    // I:decoration +, also set by I:linebreak !
    bool is_strict = false;         // abc 2.1 or later is asked for
};

}  // namespace abc
