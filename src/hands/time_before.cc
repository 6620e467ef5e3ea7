#include "hands/time_before.h"

#include <algorithm>

namespace hands {

namespace {

constexpr int kMostParts = 2 * kCostParts;
constexpr int kFewestParts = kCostParts / 2;

}  // namespace

int parts_for(const music::Duration& time) {
    if (time.numerator() <= 0) return kMostParts;
    const std::int64_t parts = kCostParts * time.denominator() / (4 * time.numerator());
    return static_cast<int>(std::clamp<std::int64_t>(parts, kFewestParts, kMostParts));
}

music::Duration time_before(const std::vector<LineNote>& line, std::size_t at) {
    return sum(line[at - 1].length, line[at].rest_before).value_or(line[at - 1].length);
}

}  // namespace hands
