// Why a setting is a piece of a tune and not a tune: nobody is to learn it, or to play it in a set, unless they ask.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace tune {

enum class Scrap : std::uint8_t {
    few_bars,    // fewer than a part has, played as written
    breaks_off,  // the music stops where no tune ends
    title        // its title stands in for one, or says that it is a part
};
constexpr std::array<Scrap, 3> kScraps{Scrap::few_bars, Scrap::breaks_off, Scrap::title};

// `few-bars`, `breaks-off`, `title`: used by SQL, JSON and CSV alike.
std::string_view scrap_token(Scrap scrap) noexcept;
std::optional<Scrap> parse_scrap(std::string_view token) noexcept;

// `it has fewer than eight bars`.
std::string_view scrap_in_words(Scrap scrap) noexcept;

}  // namespace tune
