#include "music/duration.h"

#include <algorithm>
#include <bit>
#include <numeric>

#include "base/invariant.h"

namespace music {

namespace {

constexpr std::int64_t kMaxTerm = std::int64_t{1} << 31;

bool is_power_of_two(std::int64_t value) noexcept { return (value & (value - 1)) == 0; }

}  // namespace

Duration::Duration(std::int64_t numerator, std::int64_t denominator) {
    INVARIANT(denominator > 0 && denominator <= kMaxTerm && numerator <= kMaxTerm && numerator >= -kMaxTerm);
    // Nearly every length has a power of two below the line; a shift then stands for the division.
    if (is_power_of_two(denominator) && numerator != 0) {
        const int shift = std::min(std::countr_zero(static_cast<std::uint64_t>(denominator)),
                                   std::countr_zero(static_cast<std::uint64_t>(numerator)));
        numerator_ = numerator >> shift;
        denominator_ = denominator >> shift;
        return;
    }
    const std::int64_t divisor = std::gcd(numerator, denominator);
    numerator_ = numerator / divisor;
    denominator_ = denominator / divisor;
}

bool operator<(const Duration& a, const Duration& b) noexcept {
    return a.numerator() * b.denominator() < b.numerator() * a.denominator();  // below 2^62 each
}

std::optional<Duration> sum(const Duration& a, const Duration& b) noexcept {
    const std::int64_t shared = a.denominator_ == b.denominator_ ? a.denominator_ : std::gcd(a.denominator_, b.denominator_);
    const std::int64_t denominator = a.denominator_ / shared * b.denominator_;
    const std::int64_t numerator = a.numerator_ * (b.denominator_ / shared) + b.numerator_ * (a.denominator_ / shared);
    if (denominator > kMaxTerm || numerator > kMaxTerm || numerator < -kMaxTerm) return std::nullopt;
    return Duration(numerator, denominator);
}

std::optional<Duration> product(const Duration& a, const Duration& b) noexcept {
    const std::int64_t cross1 = std::gcd(a.numerator_, b.denominator_);
    const std::int64_t cross2 = std::gcd(b.numerator_, a.denominator_);
    if (cross1 == 0 || cross2 == 0) return Duration();
    const std::int64_t numerator = (a.numerator_ / cross1) * (b.numerator_ / cross2);
    const std::int64_t denominator = (a.denominator_ / cross2) * (b.denominator_ / cross1);
    if (denominator > kMaxTerm || numerator > kMaxTerm || numerator < -kMaxTerm) return std::nullopt;
    return Duration(numerator, denominator);
}

std::string to_string(const Duration& duration) {
    std::string text = std::to_string(duration.numerator());
    if (duration.denominator() != 1) text += "/" + std::to_string(duration.denominator());
    return text;
}

}  // namespace music
