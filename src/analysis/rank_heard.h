// The settings of a collection in which a heard phrase is found, the likeliest first.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "analysis/find_heard.h"
#include "analysis/heard_place.h"
#include "tune/outline.h"

namespace analysis {

// So many are looked at closely, those first in which the phrase is found with fewest errors. Source: house choice; it
// keeps the time near to that of the first look.
constexpr std::size_t kMostLookedAt = 1000;

// What costs so much more than the likeliest is not told. Source: house choice; one wrong note in another key.
constexpr double kMostBeyondBest = 1.5;

// For a phrase of plain letters that was meant with the signs of a signature: beside what find_place costs. Source:
// house choice.
constexpr double kSignsCost = 0.2;

struct HeardSetting {
    std::int64_t setting = 0;  // as it was given to look_at
    HeardPlace place;
};

class HeardRanking {
public:
    // Throws HeardFault. `at_start`: only tunes that begin so.
    HeardRanking(std::string_view phrase, bool at_start);

    // The first look, at every setting of the collection.
    void look_at(std::int64_t setting, const tune::Outline& outline);

    // The likeliest first, of one cost in the order they were looked at. `outline_of` gives back an outline; where it
    // has none any more, the setting is left out.
    std::vector<HeardSetting> rank(
        const std::function<std::optional<tune::Outline>(std::int64_t setting)>& outline_of) const;

private:
    struct Seen {
        std::int64_t setting = 0;
        std::uint32_t reading = 0;  // the best one
        float cost = 0;             // as far as a first look tells
    };

    std::vector<Heard> readings_;
    std::vector<HeardSearch> searches_;
    std::vector<Seen> seen_;
    bool at_start_;
};

}  // namespace analysis
