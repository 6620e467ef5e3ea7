#include "music/duration.h"

#include <algorithm>
#include <bit>
#include <numeric>

#include "base/invariant.h"

namespace music {

namespace {

constexpr std::int64_t kMaxTerm = (std::int64_t{1} << 31) - 1;

bool is_power_of_two(std::int64_t value) noexcept { return (value & (value - 1)) == 0; }

}  // namespace

Duration::Duration(std::int64_t numerator, std::int64_t denominator) {
    INVARIANT(denominator > 0 && denominator <= kMaxTerm && numerator <= kMaxTerm && numerator >= -kMaxTerm);
    // Nearly every length has a power of two below the line; a shift then stands for the division.
    if (is_power_of_two(denominator) && numerator != 0) {
        const int shift = std::min(std::countr_zero(static_cast<std::uint64_t>(denominator)),
                                   std::countr_zero(static_cast<std::uint64_t>(numerator)));
        numerator_ = static_cast<std::int32_t>(numerator >> shift);
        denominator_ = static_cast<std::int32_t>(denominator >> shift);
        return;
    }
    const std::int64_t divisor = std::gcd(numerator, denominator);
    numerator_ = static_cast<std::int32_t>(numerator / divisor);
    denominator_ = static_cast<std::int32_t>(denominator / divisor);
}

bool operator<(const Duration& a, const Duration& b) noexcept {
    return a.numerator() * b.denominator() < b.numerator() * a.denominator();  // below 2^62 each
}

std::optional<Duration> sum(const Duration& a, const Duration& b) noexcept {
    const std::int64_t a_below = a.denominator_, b_below = b.denominator_;
    const bool are_powers = is_power_of_two(a_below) && is_power_of_two(b_below);
    const std::int64_t shared = are_powers ? std::min(a_below, b_below) : std::gcd(a_below, b_below);
    std::int64_t denominator = a_below / shared * b_below;
    std::int64_t numerator = a.numerator_ * (b_below / shared) + b.numerator_ * (a_below / shared);
    if (denominator > kMaxTerm || numerator > kMaxTerm || numerator < -kMaxTerm) {
        const std::int64_t divisor = std::gcd(numerator, denominator);
        denominator /= divisor;
        numerator /= divisor;
    }
    if (denominator > kMaxTerm || numerator > kMaxTerm || numerator < -kMaxTerm) return std::nullopt;
    return Duration(numerator, denominator);
}

std::optional<Duration> product(const Duration& a, const Duration& b) noexcept {
    // Terms stay below 2^62 here; powers of two, the common case, need no common divisor first.
    std::int64_t numerator = std::int64_t{a.numerator_} * b.numerator_;
    std::int64_t denominator = std::int64_t{a.denominator_} * b.denominator_;
    if (numerator == 0) return Duration();
    if (denominator > kMaxTerm || numerator > kMaxTerm || numerator < -kMaxTerm || !is_power_of_two(denominator)) {
        const std::int64_t divisor = std::gcd(numerator, denominator);
        numerator /= divisor;
        denominator /= divisor;
    }
    if (denominator > kMaxTerm || numerator > kMaxTerm || numerator < -kMaxTerm) return std::nullopt;
    return Duration(numerator, denominator);
}

std::string to_string(const Duration& duration) {
    std::string text = std::to_string(duration.numerator());
    if (duration.denominator() != 1) text += "/" + std::to_string(duration.denominator());
    return text;
}

}  // namespace music
