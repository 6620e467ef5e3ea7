// Method: J. B. Sidney, "Decomposition algorithms for single-machine sequencing with precedence relations and deferral
// costs", Operations Research 23 (1975) 283-298, for jobs (tunes) that take no time and notes that have no weight. A
// set of greatest density is found as a closure of greatest weight by one minimum cut for each density tried.
//
// If X meets more than density r allows (weight > r x time, and no set exceeds by more), every denser set lies within
// X: the blocks of X come first, then those of the rest once X is known. If no set does, the whole has the greatest
// density itself, and the smallest set of that density is a block. All in whole numbers: r is kept as weight over
// time, never divided. Tested by tests/unit/planner/blocks_test.cc.
#include "planner/blocks.h"

#include <array>
#include <cstddef>
#include <optional>

#include "base/invariant.h"
#include "planner/bound.h"
#include "planner/ease.h"
#include "planner/max_flow.h"

namespace planner {
namespace {

// The network of one density: source -> demand (time of all x weight), demand -> its leads, lead -> sink (weight of all
// x time).
class DensityTrial {
public:
    DensityTrial(std::span<const Demand> demands, std::int64_t weight, const std::vector<int>& leads,
                 const NoteGroups& groups)
        : demands_(demands), leads_(leads), flow_(2 + demands.size() + leads.size()) {
        for (std::size_t place = 0; place < leads.size(); ++place)
            vertex_of_lead_[static_cast<std::size_t>(leads[place])] = 2 + demands.size() + place;
        std::int64_t time = 0;
        for (const int lead : leads) time += groups.time_of(lead);
        for (std::size_t d = 0; d < demands.size(); ++d) flow_.add_arc(kSource, 2 + d, time * demands[d].weight);
        first_lead_arc_ = demands.size();
        for (const int lead : leads)
            flow_.add_arc(vertex_of_lead_[static_cast<std::size_t>(lead)], kSink, weight * groups.time_of(lead));
        first_demand_arc_ = first_lead_arc_ + leads.size();
        for (std::size_t d = 0; d < demands.size(); ++d)
            for (const int lead : demands[d].missing.midi_numbers())
                flow_.add_arc(2 + d, vertex_of_lead_[static_cast<std::size_t>(lead)], MaxFlow::kUnlimited);
        is_exceeded_ = flow_.run(kSource, kSink) < time * weight;
    }

    // Some set is denser than the whole.
    bool is_exceeded() const { return is_exceeded_; }

    // The smallest set that exceeds by most.
    music::NoteSet densest_guess() const {
        const std::vector<bool> reached = flow_.source_side(kSource);
        music::NoteSet set;
        for (const int lead : leads_)
            if (reached[vertex_of_lead_[static_cast<std::size_t>(lead)]]) set.add(lead);
        return set;
    }

    // When nothing exceeds: the smallest set as dense as the whole, the easiest among equals. A lead whose arc to the
    // sink has room is in none; else the demands that send flow through it bring their other leads along.
    music::NoteSet smallest_tight_set(const music::NoteSet& known) const {
        std::array<music::NoteSet, music::kMidiNotes> brings{};
        std::size_t arc = first_demand_arc_;
        for (const Demand& demand : demands_)
            for (const int lead : demand.missing.midi_numbers())
                if (flow_.residual(arc++) < MaxFlow::kUnlimited)
                    brings[static_cast<std::size_t>(lead)] = brings[static_cast<std::size_t>(lead)] | demand.missing;

        std::optional<music::NoteSet> best;
        for (const int start : leads_) {
            music::NoteSet set;
            set.add(start);
            for (music::NoteSet unseen = set; !unseen.empty();) {
                const music::NoteSet brought = brings[static_cast<std::size_t>(unseen.lowest())];
                music::NoteSet seen;
                seen.add(unseen.lowest());
                unseen = unseen.without(seen) | brought.without(set);
                set = set | brought;
            }
            if (!best || is_easier(set, *best, known)) best = set;
        }
        return *best;
    }

private:
    static constexpr std::size_t kSource = 0;
    static constexpr std::size_t kSink = 1;

    std::span<const Demand> demands_;
    const std::vector<int>& leads_;
    std::array<std::size_t, music::kMidiNotes> vertex_of_lead_{};
    MaxFlow flow_;
    std::size_t first_lead_arc_ = 0;
    std::size_t first_demand_arc_ = 0;
    bool is_exceeded_ = false;
};

void cut(std::span<const Demand> demands, const music::NoteSet& known, const NoteGroups& groups,
         std::vector<Block>& blocks) {
    if (demands.empty()) return;
    const music::NoteSet all = leads_of(demands);
    const std::int64_t weight = weight_of(demands);
    const std::vector<int> leads = all.midi_numbers();

    music::NoteSet first = all;
    bool is_block = leads.size() == 1;
    if (!is_block) {
        const DensityTrial trial(demands, weight, leads, groups);
        is_block = !trial.is_exceeded();
        first = is_block ? trial.smallest_tight_set(known) : trial.densest_guess();
    }
    std::vector<Demand> within = demands_within(demands, first);
    const std::int64_t weight_within = weight_of(within);
    if (is_block) {
        blocks.push_back({first, std::move(within), weight_within, groups.time_of(first),
                          least_cost_of_block(first, weight_within, groups)});
    } else {
        INVARIANT(!first.empty() && first != all);
        cut(within, known, groups, blocks);
    }
    cut(demands_after(demands, first), known | first, groups, blocks);
}

}  // namespace

std::vector<Block> cut_into_blocks(std::span<const Demand> demands, const music::NoteSet& known,
                                   const NoteGroups& groups) {
    for (const Demand& demand : demands) INVARIANT(demand.weight > 0);
    std::vector<Block> blocks;
    cut(demands, known, groups, blocks);
    return blocks;
}

Block uncut_block(std::span<const Demand> demands, const music::NoteSet& known, const NoteGroups& groups) {
    Block whole{leads_of(demands), {demands.begin(), demands.end()}, weight_of(demands), 0, 0};
    for (const Block& block : cut_into_blocks(demands, known, groups)) {
        whole.least_cost += block.weight * whole.time + block.least_cost;
        whole.time += block.time;
    }
    return whole;
}

}  // namespace planner
