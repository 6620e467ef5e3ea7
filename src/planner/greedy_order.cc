// From nothing most steps meet nothing, so the rule for ties decides: on printed collections ties to the most needed
// note stay within a few percent of the least cost, ties to the lowest note exceed it by half. There is no guarantee: a
// pair of notes that opens much is left to the end as long as single notes open anything. Tested by
// tests/unit/planner/greedy_order_test.cc.
#include "planner/greedy_order.h"

#include <algorithm>
#include <array>
#include <tuple>

namespace planner {
namespace {

// What the next note would bring, by weight.
struct Promise {
    std::int64_t meets = 0;
    std::int64_t needed_by = 0;  // all waiting demands with the note
};

}  // namespace

int greedy_choice(std::span<const Demand> waiting, const NoteGroups& groups) {
    std::array<Promise, music::kMidiNotes> promises{};
    for (const Demand& demand : waiting) {
        for (const int lead : demand.missing.midi_numbers())
            promises[static_cast<std::size_t>(lead)].needed_by += demand.weight;
        if (demand.missing.size() == 1)
            promises[static_cast<std::size_t>(demand.missing.lowest())].meets += demand.weight;
    }
    const auto promises_less = [&](int a, int b) {
        const Promise& of_a = promises[static_cast<std::size_t>(a)];
        const Promise& of_b = promises[static_cast<std::size_t>(b)];
        const std::int64_t time_a = groups.time_of(a);
        const std::int64_t time_b = groups.time_of(b);
        return std::tuple(of_a.meets * time_b, of_a.needed_by * time_b, -a) <
               std::tuple(of_b.meets * time_a, of_b.needed_by * time_a, -b);
    };
    const std::vector<int> leads = leads_of(waiting).midi_numbers();
    return *std::max_element(leads.begin(), leads.end(), promises_less);
}

std::vector<int> greedy_order(std::span<const Demand> demands, const NoteGroups& groups) {
    std::vector<int> order;
    std::vector<Demand> waiting(demands.begin(), demands.end());
    while (!waiting.empty()) {
        order.push_back(greedy_choice(waiting, groups));
        music::NoteSet learnt;
        learnt.add(order.back());
        for (Demand& demand : waiting) demand.missing = demand.missing.without(learnt);
        std::erase_if(waiting, [](const Demand& demand) { return demand.missing.empty(); });
    }
    return order;
}

}  // namespace planner
