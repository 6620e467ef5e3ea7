// A fact together with what it rests on.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace tune {

// stated: the file says so. computed: from the notes. assumed: a default.
enum class Basis : std::uint8_t { stated, computed, assumed };

std::string_view basis_token(Basis basis) noexcept;
std::optional<Basis> parse_basis(std::string_view token) noexcept;

template <typename T>
struct Finding {
    T value;
    Basis basis = Basis::stated;

    friend bool operator==(const Finding&, const Finding&) = default;
};

}  // namespace tune
