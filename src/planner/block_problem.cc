#include "planner/block_problem.h"

#include <algorithm>
#include <array>
#include <map>

namespace planner {

std::optional<BlockProblem> number_units(std::span<const Demand> demands) {
    const std::vector<int> notes = notes_of(demands).midi_numbers();
    std::array<std::vector<std::uint32_t>, music::kMidiNotes> occurs_in;
    for (std::size_t d = 0; d < demands.size(); ++d)
        for (const int note : demands[d].missing.midi_numbers())
            occurs_in[static_cast<std::size_t>(note)].push_back(static_cast<std::uint32_t>(d));

    BlockProblem problem;
    std::map<std::vector<std::uint32_t>, std::size_t> unit_by_demands;
    std::array<std::size_t, music::kMidiNotes> unit_of{};
    for (const int note : notes) {
        const auto [entry, is_new] =
            unit_by_demands.try_emplace(std::move(occurs_in[static_cast<std::size_t>(note)]), problem.units.size());
        if (is_new) problem.units.emplace_back();
        problem.units[entry->second].notes.add(note);
        ++problem.units[entry->second].time;
        unit_of[static_cast<std::size_t>(note)] = entry->second;
    }
    if (problem.units.size() > kMaxUnits) return std::nullopt;

    for (const Demand& demand : demands) {
        UnitDemand in_units{0, demand.weight};
        for (const int note : demand.missing.midi_numbers())
            in_units.units |= std::uint64_t{1} << unit_of[static_cast<std::size_t>(note)];
        problem.demands.push_back(in_units);
        problem.weight += demand.weight;
    }
    problem.time = static_cast<std::int64_t>(notes.size());
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
    return rest;
}

std::vector<int> spell_out(const BlockProblem& problem, std::span<const int> unit_order) {
    std::vector<int> notes;
    for (const int unit : unit_order)
        for (const int note : problem.units[static_cast<std::size_t>(unit)].notes.midi_numbers()) notes.push_back(note);
    return notes;
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

}  // namespace planner
