// Tested by bar_signs_test.cc; tests/outside/bar_signs.py has abc2midi play the same runs.
#include "abc/bar_signs.h"

#include <algorithm>
#include <array>

namespace abc {

namespace {

struct Line {
    std::string_view text;
    bool is_thick;
};
// The longest first; `[|]` is invisible.
constexpr std::array<Line, 7> kLines{
    {{"[|]", false}, {"[|", true}, {"|]", true}, {"||", true}, {"|", false}, {"[", false}, {"]", false}}};

}  // namespace

BarSigns read_bar_signs(std::string_view run) {
    BarSigns signs;
    if (run.find_first_not_of(':') == std::string_view::npos) {
        signs.closes = signs.opens = run.size() > 1;
        return signs;
    }
    bool is_first = true;
    while (!run.empty()) {
        const std::size_t colons = std::min(run.size(), run.find_first_not_of(':'));
        const bool is_last = colons == run.size();
        if (colons > 0) {
            if (!is_last) signs.closes = true;
            if (is_last || (colons > 1 && !is_first)) signs.opens = true;
        }
        run.remove_prefix(colons);
        is_first = false;
        const auto line =
            std::find_if(kLines.begin(), kLines.end(), [&](const Line& one) { return run.starts_with(one.text); });
        if (line == kLines.end()) break;
        signs.is_thick = signs.is_thick || line->is_thick;
        run.remove_prefix(line->text.size());
    }
    return signs;
}

}  // namespace abc
