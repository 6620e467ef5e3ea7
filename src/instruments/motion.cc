#include "instruments/motion.h"

#include <algorithm>

namespace instruments {

namespace {

constexpr std::array<std::string_view, kMotions> kTokens{"direction", "row",   "string",    "reach", "register",
                                                         "half-hole", "fork",  "fingers",   "key",   "bend",
                                                         "lever",     "grade", "second-way"};

}  // namespace

std::string_view motion_token(Motion motion) noexcept { return kTokens[static_cast<std::size_t>(motion)]; }

std::optional<Motion> parse_motion(std::string_view token) noexcept {
    const auto found = std::find(kTokens.begin(), kTokens.end(), token);
    if (found == kTokens.end()) return std::nullopt;
    return static_cast<Motion>(found - kTokens.begin());
}

const std::array<std::string_view, kMotions>& motion_tokens() noexcept { return kTokens; }

}  // namespace instruments
