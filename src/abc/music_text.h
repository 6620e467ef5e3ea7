// Music as it is cut into tokens.
#pragma once

#include <cstdint>
#include <string_view>
#include <vector>

namespace abc {

// A piece of text to scan and where its bytes come from: `offset` + i for byte i, or offset + places[i] after macros.
struct MusicText {
    std::string_view text;
    std::uint32_t offset = 0;
    const std::vector<std::uint32_t>* places = nullptr;
};

}  // namespace abc
