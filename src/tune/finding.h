// A fact together with what it rests on.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace tune {

// stated: the file's field for it says so. computed: from the notes. assumed: a default. title: a word of the title
// says so. said: a person told us, which goes before all of it.
enum class Basis : std::uint8_t { stated, computed, assumed, title, said };

std::string_view basis_token(Basis basis) noexcept;
std::optional<Basis> parse_basis(std::string_view token) noexcept;

// Nobody says so, in the file or otherwise: a page shows it with a question mark.
bool is_guess(Basis basis) noexcept;

template <typename T>
struct Finding {
    T value;
    Basis basis = Basis::stated;

    friend bool operator==(const Finding&, const Finding&) = default;
};

}  // namespace tune
