#include "tune/structure.h"

#include <algorithm>

namespace tune {

std::string form_of(const Structure& structure) {
    const std::vector<Part>& parts = structure.parts;
    const bool are_letters =
        std::all_of(parts.begin(), parts.end(), [](const Part& part) { return part.label.size() == 1; });
    std::string form;
    const auto play = [&](std::size_t index) { form += (are_letters || form.empty() ? "" : " ") + parts[index].label; };
    for (std::size_t index = 0; index < parts.size(); ++index) {
        play(index);
        for (std::size_t again = parts[index].repeat_from.value_or(index + 1); again <= index; ++again) play(again);
    }
    return form;
}

}  // namespace tune
