// Branch and bound over sets of notes of one size. Inside this room only.
#pragma once

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "music/note_set.h"
#include "planner/deadline.h"
#include "planner/note_problem.h"

namespace planner {

template <typename Visit>
void for_each_note(const music::NoteSet& notes, Visit visit) {
    for (std::uint64_t rest = notes.low(); rest != 0; rest &= rest - 1) visit(std::countr_zero(rest));
    for (std::uint64_t rest = notes.high(); rest != 0; rest &= rest - 1) visit(64 + std::countr_zero(rest));
}

// Weight met and naturals in one number, so that the bound speaks of both: of equal weights the set with more naturals
// is worth more.
using Worth = std::int64_t;
constexpr Worth kWorthOfWeight = music::kMidiNotes + 1;

Worth worth_of_naturals(const music::NoteSet& notes) noexcept;
std::int64_t weight_within(std::span<const Demand> demands, const music::NoteSet& notes) noexcept;
Worth worth_of(std::span<const Demand> demands, const music::NoteSet& notes) noexcept;

// A few different sets of notes, best first: by worth, then by comes_before.
class BestSets {
public:
    struct Ranked {
        music::NoteSet notes;
        Worth worth = 0;
    };

    // Keeps up to `room` sets, and none that is worth less than `least`.
    BestSets(std::size_t room, Worth least) : room_(room), least_(least) {}

    void offer(const music::NoteSet& notes, Worth worth);

    // False when no set is worth keeping that is worth at most `worth` and comes no earlier than `earliest`.
    bool could_keep(Worth worth, const music::NoteSet& earliest) const noexcept;
    // Sets worth less than this are not kept.
    Worth least_kept() const noexcept { return is_full() ? kept_.back().worth : least_; }
    bool is_full() const noexcept { return kept_.size() == room_; }
    std::span<const Ranked> kept() const noexcept { return kept_; }

private:
    std::size_t room_;
    Worth least_;
    std::vector<Ranked> kept_;
};

// Borrows the demands, each of which must weigh something, and the sets it adds to.
class CoverSearch {
public:
    CoverSearch(std::span<const Demand> demands, BestSets& best, std::size_t max_states, const Deadline& deadline);

    // Every set of `chosen` and `more` of the `free` notes is offered or cannot be kept, unless the search is ended.
    // There are at least `more` free notes.
    void run(const music::NoteSet& chosen, const music::NoteSet& free, std::size_t more);

    bool is_finished() const noexcept { return !is_ended_; }
    // Of the sets that an ended search has not looked at none is worth more; 0 where it is finished.
    Worth most_unseen() const noexcept { return most_unseen_; }
    std::size_t states() const noexcept { return states_; }

private:
    using Price = std::uint16_t;
    using Prices = std::array<Price, music::kMidiNotes>;

    struct Waiting {
        music::NoteSet missing;
        Worth worth = 0;
    };

    // What is decided: `chosen` is in, `free` may come in, all others are out. `waiting` is what can still be met.
    struct State {
        music::NoteSet chosen;
        music::NoteSet free;
        std::size_t more = 0;  // free notes to come in
        Worth sure = 0;        // of the chosen notes, with all that is met by them
        std::vector<Waiting> waiting;
        Prices prices{};
    };

    struct Share {
        int note = 0;
        Worth scaled = 0;
    };

    void look(State& state, int rounds);
    State decided(const State& state, const music::NoteSet& in, const music::NoteSet& out) const;
    Worth bound(State& state, int rounds);
    Worth bound_by_shares(const State& state);
    void level_prices(State& state) const;
    bool settle_notes(const State& state, music::NoteSet& in, music::NoteSet& out) const;
    int most_needed(const State& state) const;

    std::span<const Demand> demands_;
    BestSets& best_;
    std::size_t max_states_;
    const Deadline& deadline_;
    int scale_bits_;  // shares count in worth / 2^scale_bits_

    std::vector<Share> shares_;       // of the state last bounded, greatest first
    std::vector<Share> best_shares_;  // of the round that gave the bound
    std::size_t states_ = 0;
    Worth most_unseen_ = 0;
    bool is_ended_ = false;
};

}  // namespace planner
