#include "music/duration.h"

#include <catch2/catch.hpp>
#include <cstdint>
#include <random>
#include <vector>

using music::Duration;

namespace {

std::vector<Duration> small_durations() {
    std::vector<Duration> all;
    for (std::int64_t numerator = -9; numerator <= 9; ++numerator)
        for (std::int64_t denominator = 1; denominator <= 12; ++denominator) all.emplace_back(numerator, denominator);
    return all;
}

// Whether a fraction equals p/q, by cross multiplication.
bool equals(const Duration& duration, std::int64_t p, std::int64_t q) {
    return duration.numerator() * q == p * duration.denominator();
}

}  // namespace

TEST_CASE("duration: a fraction stands in lowest terms", "[music][duration]") {
    for (std::int64_t numerator = -70; numerator <= 70; ++numerator)
        for (std::int64_t denominator = 1; denominator <= 70; ++denominator) {
            const Duration duration(numerator, denominator);
            if (!equals(duration, numerator, denominator) || duration.denominator() < 1)
                FAIL(numerator << "/" << denominator);
            for (std::int64_t divisor = 2; divisor <= duration.denominator(); ++divisor)
                if (duration.denominator() % divisor == 0 && duration.numerator() % divisor == 0)
                    FAIL(numerator << "/" << denominator);
        }
    CHECK(Duration(0, 64) == Duration());
    CHECK(Duration(0, 3) == Duration());
    CHECK(Duration().denominator() == 1);
}

TEST_CASE("duration: sum, product and order agree with fractions on paper", "[music][duration]") {
    const auto all = small_durations();
    for (const Duration& a : all)
        for (const Duration& b : all) {
            const std::int64_t p = a.numerator(), q = a.denominator(), r = b.numerator(), s = b.denominator();
            if (!equals(*sum(a, b), p * s + r * q, q * s)) FAIL(to_string(a) << " + " << to_string(b));
            if (!equals(*product(a, b), p * r, q * s)) FAIL(to_string(a) << " x " << to_string(b));
            if ((a < b) != (p * s < r * q)) FAIL(to_string(a) << " < " << to_string(b));
            if ((a == b) != (p * s == r * q)) FAIL(to_string(a) << " == " << to_string(b));
        }
    SUCCEED();
}

TEST_CASE("duration: sum and product keep the laws of fractions", "[music][duration]") {
    std::mt19937 random(20240511);
    std::uniform_int_distribution<std::int64_t> numerator(-64, 64), denominator(1, 96);
    for (int round = 0; round < 20000; ++round) {
        const Duration a(numerator(random), denominator(random)), b(numerator(random), denominator(random)),
            c(numerator(random), denominator(random));
        if (sum(a, b) != sum(b, a) || product(a, b) != product(b, a)) FAIL("order of terms matters");
        if (sum(*sum(a, b), c) != sum(a, *sum(b, c))) FAIL("grouping of a sum matters");
        if (product(*product(a, b), c) != product(a, *product(b, c))) FAIL("grouping of a product matters");
        if (product(a, *sum(b, c)) != sum(*product(a, b), *product(a, c))) FAIL("a product does not reach into a sum");
        if (sum(a, Duration()) != a || product(a, Duration(1, 1)) != a || product(a, Duration()) != Duration())
            FAIL("nought or one");
    }
    SUCCEED();
}

TEST_CASE("duration: what needs terms of two to the 31st and more is refused, not rounded", "[music][duration]") {
    const std::int64_t most = (std::int64_t{1} << 31) - 1;  // a prime
    const std::int64_t power = std::int64_t{1} << 30;
    CHECK(product(Duration(1, power), Duration(1, 2)) == std::nullopt);
    CHECK(product(Duration(most, 1), Duration(2, 1)) == std::nullopt);
    CHECK(product(Duration(-most, 1), Duration(2, 1)) == std::nullopt);
    CHECK(product(Duration(most, 1), Duration(1, most)) == Duration(1, 1));
    CHECK(product(Duration(most, 3), Duration(3, most)) == Duration(1, 1));
    CHECK(product(Duration(most, power), Duration(power, most)) == Duration(1, 1));
    CHECK(product(Duration(1, most), Duration(1, most)) == std::nullopt);
    CHECK(sum(Duration(most, 1), Duration(1, 1)) == std::nullopt);
    CHECK(sum(Duration(-most, 1), Duration(-1, 1)) == std::nullopt);
    CHECK(sum(Duration(1, power), Duration(1, most)) == std::nullopt);
    CHECK(sum(Duration(1, power), Duration(1, power)) == Duration(1, power / 2));
    CHECK(sum(Duration(most, most - 1), Duration(-most, most - 1)) == Duration());
    CHECK(Duration(1, most) < Duration(1, power));
    CHECK(Duration(-most, 1) < Duration(most, 1));
}

TEST_CASE("duration: a sum whose lowest terms fit is given", "[music][duration]") {
    const std::int64_t most = (std::int64_t{1} << 31) - 1;
    CHECK(sum(Duration(most, 2), Duration(most, 2)) == Duration(most, 1));
    // 46337 and 46327 are odd and share no factor, so 1/92674 + 1/92654 = 46332/2146654199, below 2^31 in both terms.
    CHECK(sum(Duration(1, 92674), Duration(1, 92654)) == Duration(46332, 2146654199));
}

TEST_CASE("duration: prints as a fraction of a whole note, whole numbers without a stroke", "[music][duration]") {
    CHECK(to_string(Duration(3, 16)) == "3/16");
    CHECK(to_string(Duration(4, 4)) == "1");
    CHECK(to_string(Duration()) == "0");
    CHECK(to_string(Duration(-6, 8)) == "-3/4");
}
