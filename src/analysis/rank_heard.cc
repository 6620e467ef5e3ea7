// Tested by rank_heard_test.cc.
#include "analysis/rank_heard.h"

#include <algorithm>

namespace analysis {

namespace {

// Near to what find_place will say.
double first_cost(const Hit& hit, bool as_written) {
    constexpr HeardCosts kFirstCosts;
    const double begins = hit.begins == Begins::tune   ? 0
                          : hit.begins == Begins::part ? kFirstCosts.part
                                                       : kFirstCosts.bar;
    return hit.errors + begins + (hit.semitones != 0 ? kFirstCosts.another_key : 0) + (as_written ? 0 : kSignsCost);
}

}  // namespace

HeardRanking::HeardRanking(std::string_view phrase, bool at_start)
    : readings_(readings_of(phrase)), at_start_(at_start) {
    for (const Heard& heard : readings_) searches_.emplace_back(heard);
}

void HeardRanking::look_at(std::int64_t setting, const tune::Outline& outline) {
    std::optional<Seen> best;
    for (std::size_t reading = 0; reading < searches_.size(); ++reading) {
        const auto hit = searches_[reading].find_in(outline, at_start_);
        if (!hit) continue;
        const auto cost = static_cast<float>(first_cost(*hit, reading == 0));
        if (!best || cost < best->cost) best = Seen{setting, static_cast<std::uint32_t>(reading), cost};
    }
    if (best) seen_.push_back(*best);
}

std::vector<HeardSetting> HeardRanking::rank(
    const std::function<std::optional<tune::Outline>(std::int64_t setting)>& outline_of) const {
    std::vector<Seen> seen = seen_;
    std::stable_sort(seen.begin(), seen.end(), [](const Seen& a, const Seen& b) { return a.cost < b.cost; });
    seen.resize(std::min(seen.size(), kMostLookedAt));
    std::vector<HeardSetting> ranked;
    for (const Seen& one : seen) {
        const auto outline = outline_of(one.setting);
        if (!outline) continue;
        auto place = find_place(readings_[one.reading], *outline, at_start_);
        if (!place) continue;
        if (one.reading != 0) place->cost += kSignsCost;
        ranked.push_back({one.setting, *place});
    }
    std::stable_sort(ranked.begin(), ranked.end(),
                     [](const HeardSetting& a, const HeardSetting& b) { return better(a.place, b.place); });
    const auto far = std::find_if(ranked.begin(), ranked.end(), [&](const HeardSetting& one) {
        return one.place.cost > ranked.front().place.cost + kMostBeyondBest;
    });
    ranked.erase(far, ranked.end());
    return ranked;
}

}  // namespace analysis
