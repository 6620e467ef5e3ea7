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

std::vector<int> greedy_order(std::span<const Demand> demands) {
    std::vector<int> order;
    std::vector<Demand> waiting(demands.begin(), demands.end());
    while (!waiting.empty()) {
        std::array<Promise, music::kMidiNotes> promises{};
        for (const Demand& demand : waiting) {
            for (const int note : demand.missing.midi_numbers())
                promises[static_cast<std::size_t>(note)].needed_by += demand.weight;
            if (demand.missing.size() == 1)
                promises[static_cast<std::size_t>(demand.missing.lowest())].meets += demand.weight;
        }
        const auto rank = [&promises](int note) {
            const Promise& promise = promises[static_cast<std::size_t>(note)];
            return std::tuple(promise.meets, promise.needed_by, -note);
        };
        const std::vector<int> notes = notes_of(waiting).midi_numbers();
        const int best =
            *std::max_element(notes.begin(), notes.end(), [&rank](int a, int b) { return rank(a) < rank(b); });
        order.push_back(best);
        music::NoteSet learnt;
        learnt.add(best);
        for (Demand& demand : waiting) demand.missing = demand.missing.without(learnt);
        std::erase_if(waiting, [](const Demand& demand) { return demand.missing.empty(); });
    }
    return order;
}

}  // namespace planner
