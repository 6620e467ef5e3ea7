// Exact lengths of time, as fractions of a whole note.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace music {

// In lowest terms, denominator above zero. Zero is 0/1.
class Duration {
public:
    constexpr Duration() = default;
    // `denominator` must not be zero. Terms below 2^31 in size keep every operation below exact.
    Duration(std::int64_t numerator, std::int64_t denominator);

    constexpr std::int64_t numerator() const noexcept { return numerator_; }
    constexpr std::int64_t denominator() const noexcept { return denominator_; }

    friend bool operator==(const Duration&, const Duration&) = default;

private:
    friend std::optional<Duration> sum(const Duration& a, const Duration& b) noexcept;
    friend std::optional<Duration> product(const Duration& a, const Duration& b) noexcept;

    std::int32_t numerator_ = 0;  // 32 bits: a melody holds two lengths for each note
    std::int32_t denominator_ = 1;
};

bool operator<(const Duration& a, const Duration& b) noexcept;

// Nothing where the exact value needs terms of 2^31 and more: odd lengths of a hostile file, never real music.
std::optional<Duration> sum(const Duration& a, const Duration& b) noexcept;
std::optional<Duration> product(const Duration& a, const Duration& b) noexcept;

std::string to_string(const Duration& duration);  // `3/16`, `1`

}  // namespace music
