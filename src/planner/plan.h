// A learning path: which note next, what it opens, and how sure we are that no order is better.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include "music/note_set.h"
#include "tune/record.h"

namespace planner {

// What could have been learnt instead, and how many tunes that would have opened at once.
struct RunnerUp {
    music::NoteSet add;
    std::int64_t opens = 0;  // 1 or more

    friend bool operator==(const RunnerUp&, const RunnerUp&) = default;
};

// One note, or a group where no single note opens anything. `opens` is 0 where a note is learnt for what it opens later
// although another note would have opened something now.
struct Step {
    music::NoteSet add;
    std::int64_t opens = 0;            // tunes, not weights
    std::int64_t open = 0;             // tunes open after this step, those of the start included
    std::vector<tune::TuneId> ids;     // of the tunes it opens, ascending
    std::vector<RunnerUp> runners_up;  // most tunes first, then fewer notes, then lower pitch
    bool is_stall = false;             // no single note opened anything, so this group does

    friend bool operator==(const Step&, const Step&) = default;
};

// optimal: no order of the notes costs less. gap: none costs less than Plan::lower_bound.
enum class Proof : std::uint8_t { optimal, gap };

std::string_view proof_token(Proof proof) noexcept;

// Costs: the sum, over the tunes not open at the start, of weight x the time at which the tune opens. Learning one note
// takes time 1, a step of g notes takes time g. Costs are whole numbers (exact in a double up to 2^53, which
// kMaxTotalWeight keeps).
struct Plan {
    std::int64_t tunes = 0;                  // all that were wanted
    std::int64_t open_now = 0;               // of these, at the start
    std::vector<tune::TuneId> ids_open_now;  // ascending
    std::vector<Step> steps;                 // notes no waiting tune needs are in no step
    std::int64_t never_open = 0;             // tunes no path leads to
    double cost = 0;                         // of the whole path, also where `steps` is cut short
    double lower_bound = 0;                  // no order costs less; equals `cost` where the proof is optimal
    double greedy_cost = 0;                  // of always taking the note that opens most at once
    Proof proof = Proof::optimal;
    std::size_t states = 0;          // sets of notes looked at for the proof
    std::size_t largest_block = 0;   // notes that had to be ordered together
    std::size_t notes_to_learn = 0;  // by the whole path

    friend bool operator==(const Plan&, const Plan&) = default;
};

}  // namespace planner
