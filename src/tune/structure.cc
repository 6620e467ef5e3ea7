#include "tune/structure.h"

#include <algorithm>

namespace tune {

std::string form_of(const Structure& structure) {
    const bool are_letters = std::all_of(structure.parts.begin(), structure.parts.end(), [](const Part& part) { return part.label.size() == 1; });
    std::string form;
    for (const Part& part : structure.parts)
        for (int time = 0; time < (part.is_repeated ? 2 : 1); ++time) form += (are_letters || form.empty() ? "" : " ") + part.label;
    return form;
}

}  // namespace tune
