// A learning path: which note next, what it opens, why, and how sure we are that no order is better.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "music/note_set.h"
#include "tune/record.h"

namespace planner {

// What could have been learnt instead, and how many tunes that would have opened at once.
struct RunnerUp {
    music::NoteSet add;
    std::int64_t opens = 0;  // 1 or more
    // By how much the rest of the path costs more when it goes this way and then as well as it can; 0: just as good.
    // Unknown where either is not proven, or where this way something would come too late.
    std::optional<std::int64_t> costs_more;
    bool is_too_late = false;  // for something that must open by then

    friend bool operator==(const RunnerUp&, const RunnerUp&) = default;
};

// Where a note that opens nothing by itself first helps to open something.
struct PayOff {
    std::size_t step = 0;    // counted from 1
    std::int64_t tunes = 0;  // opened there that need the note
    tune::TuneId example;    // the first of them

    friend bool operator==(const PayOff&, const PayOff&) = default;
};

// One note, a group, or several of them where no single one opens anything. `opens` is 0 where a note is learnt for
// what it opens later although another note would have opened something now, or where the path was told to begin so.
struct Step {
    music::NoteSet add;
    std::int64_t opens = 0;            // tunes, not weights
    std::int64_t open = 0;             // tunes open after this step, those of the start included
    std::int64_t time = 0;             // at which it is learnt
    std::vector<tune::TuneId> ids;     // of the tunes it opens, ascending
    std::vector<RunnerUp> runners_up;  // most tunes first, then fewer notes, then lower pitch
    std::optional<RunnerUp> greedy;    // what opens more weight now for its time, and yet is not taken
    std::optional<PayOff> pays_off;    // where `opens` is 0 and something is opened later
    bool is_stall = false;             // no single note opened anything, so these do together
    bool is_asked_for = false;         // the path was told to begin so

    friend bool operator==(const Step&, const Step&) = default;
};

// optimal: no order costs less. gap: none costs less than Plan::lower_bound.
enum class Proof : std::uint8_t { optimal, gap };

std::string_view proof_token(Proof proof) noexcept;

// Costs: the sum, over the tunes not open at the start, of weight x the time at which the tune opens, in learning time
// (1 for each note and each group unless the goal says otherwise). Whole numbers, exact in a double.
struct Plan {
    std::int64_t tunes = 0;                  // all that were wanted
    std::int64_t open_now = 0;               // of these, at the start
    std::vector<tune::TuneId> ids_open_now;  // ascending
    std::vector<Step> steps;                 // notes no waiting tune needs are in no step, unless asked for
    std::int64_t never_open = 0;             // tunes that need a note to be avoided
    double cost = 0;                         // of the whole path, also where `steps` is cut short
    double lower_bound = 0;                  // no order costs less; equals `cost` where the proof is optimal
    double greedy_cost = 0;                  // of always taking what opens most at once, whatever is due
    Proof proof = Proof::optimal;
    std::size_t states = 0;           // sets of notes looked at for the proof
    std::size_t largest_block = 0;    // groups that had to be ordered together
    std::size_t groups_to_learn = 0;  // by the whole path: notes, or groups where some are learnt together

    friend bool operator==(const Plan&, const Plan&) = default;
};

}  // namespace planner
