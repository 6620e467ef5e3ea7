#include "syllabus/syllabus.h"

#include <array>

namespace syllabus {

namespace {

constexpr std::array<std::string_view, 3> kStates{"planned", "taught", "lost"};

}  // namespace

std::string_view state_token(LessonState state) noexcept { return kStates[static_cast<std::size_t>(state)]; }

std::optional<LessonState> parse_state(std::string_view token) noexcept {
    for (std::size_t at = 0; at < kStates.size(); ++at)
        if (kStates[at] == token) return static_cast<LessonState>(at);
    return std::nullopt;
}

}  // namespace syllabus
