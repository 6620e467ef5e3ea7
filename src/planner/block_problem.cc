#include "planner/block_problem.h"

#include <algorithm>
#include <array>
#include <map>

namespace planner {

std::optional<BlockProblem> number_units(std::span<const Demand> demands, const NoteGroups& groups,
                                         std::span<const Due> due) {
    const std::vector<int> leads = leads_of(demands).midi_numbers();
    std::array<std::vector<std::uint32_t>, music::kMidiNotes> occurs_in;
    for (std::size_t d = 0; d < demands.size(); ++d)
        for (const int lead : demands[d].missing.midi_numbers())
            occurs_in[static_cast<std::size_t>(lead)].push_back(static_cast<std::uint32_t>(d));

    BlockProblem problem;
    std::map<std::vector<std::uint32_t>, std::size_t> unit_by_demands;
    std::array<std::size_t, music::kMidiNotes> unit_of{};
    for (const int lead : leads) {
        const auto [entry, is_new] =
            unit_by_demands.try_emplace(std::move(occurs_in[static_cast<std::size_t>(lead)]), problem.units.size());
        if (is_new) problem.units.push_back({{}, 0, 0});
        Unit& unit = problem.units[entry->second];
        unit.leads.add(lead);
        unit.time += groups.time_of(lead);
        ++unit.steps;
        problem.time += groups.time_of(lead);
        unit_of[static_cast<std::size_t>(lead)] = entry->second;
    }
    if (problem.units.size() > kMaxUnits) return std::nullopt;

    const auto units_of = [&unit_of](const music::NoteSet& set) {
        std::uint64_t units = 0;
        for (const int lead : set.midi_numbers()) units |= std::uint64_t{1} << unit_of[static_cast<std::size_t>(lead)];
        return units;
    };
    for (const Demand& demand : demands) {
        problem.demands.push_back({units_of(demand.missing), demand.weight});
        problem.weight += demand.weight;
    }
    for (const Due& one : due) problem.due.push_back({units_of(one.leads), one.steps});
    return problem;
}

RestOfBlock rest_after(const BlockProblem& problem, std::uint64_t learnt) {
    RestOfBlock rest;
    std::array<std::uint64_t, kMaxUnits> bit{};
    for (std::uint64_t units = problem.all_units() & ~learnt; units != 0; units &= units - 1) {
        const auto unit = static_cast<std::size_t>(std::countr_zero(units));
        bit[unit] = std::uint64_t{1} << rest.units.size();
        rest.units.push_back(static_cast<int>(unit));
        rest.problem.units.push_back(problem.units[unit]);
        rest.problem.time += problem.units[unit].time;
    }
    for (const UnitDemand& demand : problem.demands) {
        UnitDemand left{0, demand.weight};
        for (std::uint64_t units = demand.units; units != 0; units &= units - 1)
            left.units |= bit[static_cast<std::size_t>(std::countr_zero(units))];
        if (left.units == 0) continue;
        rest.problem.demands.push_back(left);
        rest.problem.weight += demand.weight;
    }
    for (const UnitsDue& one : problem.due) {
        UnitsDue left{0, one.steps - problem.steps_of(learnt)};
        for (std::uint64_t units = one.units & ~learnt; units != 0; units &= units - 1)
            left.units |= bit[static_cast<std::size_t>(std::countr_zero(units))];
        if (left.units != 0) rest.problem.due.push_back(left);
    }
    return rest;
}

std::vector<int> spell_out(const BlockProblem& problem, std::span<const int> unit_order) {
    std::vector<int> leads;
    for (const int unit : unit_order)
        for (const int lead : problem.units[static_cast<std::size_t>(unit)].leads.midi_numbers()) leads.push_back(lead);
    return leads;
}

std::int64_t cost_of_units(const BlockProblem& problem, std::span<const int> unit_order) {
    std::int64_t cost = 0;
    std::uint64_t learnt = 0;
    for (const int unit : unit_order) {
        cost += problem.units[static_cast<std::size_t>(unit)].time * problem.waiting_after(learnt);
        learnt |= std::uint64_t{1} << unit;
    }
    return cost;
}

bool is_order_in_time(const BlockProblem& problem, std::span<const int> unit_order) noexcept {
    std::uint64_t learnt = 0;
    for (const int unit : unit_order) {
        if (!problem.is_in_time(learnt)) return false;
        learnt |= std::uint64_t{1} << unit;
    }
    return true;
}

}  // namespace planner
