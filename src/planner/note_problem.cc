#include "planner/note_problem.h"

#include <algorithm>
#include <array>

#include "base/invariant.h"

namespace planner {
namespace {

// Equal sets become one demand. Rule 1 of the preprocessing: no order can tell such tunes apart.
std::vector<Demand> merge_equal(std::vector<Demand> demands) {
    std::sort(demands.begin(), demands.end(),
              [](const Demand& a, const Demand& b) { return comes_before(a.missing, b.missing); });
    std::vector<Demand> merged;
    for (const Demand& demand : demands) {
        if (!merged.empty() && merged.back().missing == demand.missing) {
            merged.back().weight += demand.weight;
            merged.back().tunes += demand.tunes;
        } else {
            merged.push_back(demand);
        }
    }
    return merged;
}

constexpr std::uint64_t lowest_bit(std::uint64_t bits) noexcept { return bits & (~bits + 1); }

}  // namespace

bool comes_before(const music::NoteSet& a, const music::NoteSet& b) noexcept {
    if (a.low() != b.low()) return (lowest_bit(a.low() ^ b.low()) & a.low()) != 0;
    return (lowest_bit(a.high() ^ b.high()) & a.high()) != 0;
}

std::vector<Demand> gather_demands(std::span<const Wanted> wanted, const music::NoteSet& have,
                                   const NoteGroups& groups) {
    std::vector<Demand> demands;
    demands.reserve(wanted.size());
    std::int64_t total = 0;
    for (const Wanted& tune : wanted) {
        INVARIANT(!tune.needed.empty());
        INVARIANT(tune.weight >= 0 && tune.weight <= kMaxTotalWeight - total);
        total += tune.weight;
        const music::NoteSet missing = tune.needed.without(have);
        if (!missing.empty()) demands.push_back({groups.leads_of(missing), tune.weight, 1});
    }
    return merge_equal(std::move(demands));
}

std::vector<Demand> demands_after(std::span<const Demand> demands, const music::NoteSet& learnt) {
    std::vector<Demand> rest;
    rest.reserve(demands.size());
    for (const Demand& demand : demands) {
        const music::NoteSet missing = demand.missing.without(learnt);
        if (!missing.empty()) rest.push_back({missing, demand.weight, demand.tunes});
    }
    return merge_equal(std::move(rest));
}

std::vector<Demand> demands_within(std::span<const Demand> demands, const music::NoteSet& leads) {
    std::vector<Demand> within;
    for (const Demand& demand : demands)
        if (demand.missing.is_within(leads)) within.push_back(demand);
    return within;
}

music::NoteSet leads_of(std::span<const Demand> demands) noexcept {
    music::NoteSet leads;
    for (const Demand& demand : demands) leads = leads | demand.missing;
    return leads;
}

std::int64_t weight_of(std::span<const Demand> demands) noexcept {
    std::int64_t weight = 0;
    for (const Demand& demand : demands) weight += demand.weight;
    return weight;
}

std::int64_t cost_of(std::span<const Demand> demands, std::span<const int> order, const NoteGroups& groups) {
    std::array<std::int64_t, music::kMidiNotes> learnt_at{};
    std::int64_t time = 0;
    for (const int lead : order) learnt_at[static_cast<std::size_t>(lead)] = time += groups.time_of(lead);
    std::int64_t cost = 0;
    for (const Demand& demand : demands) {
        std::int64_t opens_at = 0;
        for (const int lead : demand.missing.midi_numbers()) {
            INVARIANT(learnt_at[static_cast<std::size_t>(lead)] != 0);
            opens_at = std::max(opens_at, learnt_at[static_cast<std::size_t>(lead)]);
        }
        cost += demand.weight * opens_at;
    }
    return cost;
}

}  // namespace planner
