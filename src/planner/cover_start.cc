// Two ways to a first set: gather the tunes that give most for the notes they still need, or start from all notes and
// leave out those that are missed least. Neither is good at every size. Each is then bettered by exchanges of one note.
// Tested by tests/unit/planner/cover_test.cc.
#include "planner/cover_start.h"

#include <algorithm>
#include <array>

namespace planner {
namespace {

using Weights = std::array<std::int64_t, music::kMidiNotes>;

std::int64_t& at(Weights& weights, int note) { return weights[static_cast<std::size_t>(note)]; }

// Weight, by note, of the demands that `notes` would meet with that note besides.
Weights opened_by_each(std::span<const Demand> demands, const music::NoteSet& notes) {
    Weights opened{};
    for (const Demand& demand : demands) {
        const music::NoteSet lacking = demand.missing.without(notes);
        if (lacking.size() == 1) at(opened, lacking.lowest()) += demand.weight;
    }
    return opened;
}

// Weight, by note, of the demands within `notes` that need it.
Weights lost_without(std::span<const Demand> demands, const music::NoteSet& notes) {
    Weights lost{};
    for (const Demand& demand : demands)
        if (demand.missing.is_within(notes))
            for_each_note(demand.missing, [&](int note) { at(lost, note) += demand.weight; });
    return lost;
}

// Worth less to lose: less weight, then a sharp or flat, then the higher note.
music::NoteSet left_out(std::span<const Demand> demands, const music::NoteSet& forced, music::NoteSet notes,
                        std::size_t count) {
    while (static_cast<std::size_t>(notes.size()) > count) {
        Weights lost = lost_without(demands, notes);
        int least = -1;
        const auto worth = [&lost](int note) {
            music::NoteSet alone;
            alone.add(note);
            return kWorthOfWeight * at(lost, note) + worth_of_naturals(alone);
        };
        for_each_note(notes.without(forced), [&](int note) {
            if (least < 0 || worth(note) <= worth(least)) least = note;
        });
        music::NoteSet without;
        without.add(least);
        notes = notes.without(without);
    }
    return notes;
}

music::NoteSet gathered(std::span<const Demand> demands, music::NoteSet taken, const music::NoteSet& notes,
                        std::size_t count) {
    for (;;) {
        const std::size_t room = count - static_cast<std::size_t>(taken.size());
        const Demand* best = nullptr;
        std::int64_t best_lacks = 0;
        for (const Demand& demand : demands) {
            const std::int64_t lacks = demand.missing.without(taken).size();
            if (lacks == 0 || static_cast<std::size_t>(lacks) > room) continue;
            // Weights are below 2^46 and notes at most 128: no product overflows.
            if (best != nullptr && demand.weight * best_lacks <= best->weight * lacks) continue;
            best = &demand;
            best_lacks = lacks;
        }
        if (best == nullptr) break;
        taken = taken | best->missing;
    }
    for_each_note(notes.without(taken), [&](int note) {
        if (static_cast<std::size_t>(taken.size()) < count) taken.add(note);
    });
    return taken;
}

void offer_bettered(std::span<const Demand> demands, const music::NoteSet& forced, const music::NoteSet& notes,
                    music::NoteSet set, BestSets& best, const Deadline& deadline) {
    BestSets::Ranked top{set, worth_of(demands, set)};
    best.offer(top.notes, top.worth);
    for (bool is_bettered = true; is_bettered && !deadline.has_passed();) {
        is_bettered = false;
        set = top.notes;
        for_each_note(set.without(forced), [&](int out) {
            music::NoteSet rest;
            rest.add(out);
            rest = set.without(rest);
            Weights opened = opened_by_each(demands, rest);
            const Worth kept = worth_of(demands, rest);
            for_each_note(notes.without(set), [&](int in) {
                music::NoteSet alone;
                alone.add(in);
                const Worth worth = kept + kWorthOfWeight * at(opened, in) + worth_of_naturals(alone);
                best.offer(rest | alone, worth);
                if (worth <= top.worth) return;
                top = {rest | alone, worth};
                is_bettered = true;
            });
        });
    }
}

}  // namespace

void offer_starts(std::span<const Demand> demands, const music::NoteSet& forced, const music::NoteSet& notes,
                  std::size_t count, BestSets& best, const Deadline& deadline) {
    const music::NoteSet one = gathered(demands, forced, notes, count);
    const music::NoteSet other = left_out(demands, forced, notes, count);
    offer_bettered(demands, forced, notes, one, best, deadline);
    if (other != one) offer_bettered(demands, forced, notes, other, best, deadline);
}

}  // namespace planner
