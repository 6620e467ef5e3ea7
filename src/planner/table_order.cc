// h(S), the least cost still to come once the units S are learnt, for every S from all to none:
//
//     h(all) = 0,   h(S) = min over units j outside S of  time_j x waiting(S) + h(S + j)
//
// Looking forward, only waiting(S) of the set itself is needed, so one array of 2^n numbers serves, whatever the times.
// It is filled a row of 2^kRowBits sets at a time: rows share their high units, so the row of S + j lies elsewhere as
// one piece when j is a high unit, and waiting() of a whole row is counted in a buffer that stays in the first-level
// cache.
//
// Units are tried from the longest time to the shortest, and time x waiting is added only where the time changes: with
// equal times that is once for a set instead of once for a unit.
//
// Folding: the sets with one unit f are filled first, and those without it then take the same places, for h(S + f) is
// wanted by h(S) alone. That halves the memory. What follows after f is lost; it is a smaller table, made anew.
//
// Dropped: a table of waiting() for all sets in the same array, which costs one pass over the memory for every unit.
// Tested by tests/unit/planner/table_order_test.cc.
#include "planner/table_order.h"

#include <algorithm>
#include <array>
#include <bit>
#include <limits>
#include <memory>
#include <numeric>

#include "base/invariant.h"
#include "planner/ease.h"

namespace planner {
namespace {

constexpr std::size_t kRowBits = 10;
constexpr std::size_t kRow = std::size_t{1} << kRowBits;
constexpr std::size_t kLaneBits = 3;  // sets worked on side by side
constexpr std::size_t kLanes = std::size_t{1} << kLaneBits;

template <typename Number, std::size_t kCount>
void take_less(Number* __restrict least, const Number* __restrict other) {
    for (std::size_t i = 0; i < kCount; ++i) least[i] = other[i] < least[i] ? other[i] : least[i];
}

template <typename Number, std::size_t kCount>
void add_times(Number* __restrict sums, const Number* __restrict waiting, Number time) {
    for (std::size_t i = 0; i < kCount; ++i) sums[i] += time * waiting[i];
}

// Within the type: every cost, and twice the greatest, for a set no unit has been tried for yet.
template <typename Number>
constexpr Number kFar = std::numeric_limits<Number>::max() / 2;

bool fits_32_bits(const BlockProblem& problem) noexcept {
    return (problem.time + 1) * problem.weight < kFar<std::int32_t>;
}

std::uint64_t bytes_of_entry(const BlockProblem& problem) noexcept {
    return fits_32_bits(problem) ? sizeof(std::int32_t) : sizeof(std::int64_t);
}

bool is_folded(const BlockProblem& problem, std::size_t fold_above) noexcept {
    return bytes_of_entry(problem) << problem.units.size() > fold_above;
}

// The unit that least is waiting for: likely to be learnt late, and little is left to do once it is.
std::size_t unit_to_fold(const BlockProblem& problem) {
    std::array<std::int64_t, kMaxUnits> needed_by{};
    for (const UnitDemand& demand : problem.demands)
        for (std::uint64_t units = demand.units; units != 0; units &= units - 1)
            needed_by[static_cast<std::size_t>(std::countr_zero(units))] += demand.weight;
    const auto end = needed_by.begin() + static_cast<std::ptrdiff_t>(problem.units.size());
    return static_cast<std::size_t>(std::min_element(needed_by.begin(), end) - needed_by.begin());
}

template <typename Number>
class Table {
public:
    Table(const BlockProblem& problem, std::size_t fold_above) : weight_(static_cast<Number>(problem.weight)) {
        // From the highest bit down, longest time first. Blocks of fewer than kRowBits units are filled up with units
        // nobody waits for: learnt last, they cost nothing.
        std::vector<std::size_t> units(problem.units.size());
        std::iota(units.begin(), units.end(), std::size_t{0});
        if (is_folded(problem, fold_above)) {
            folded_ = std::uint64_t{1} << unit_to_fold(problem);
            std::erase(units, unit_to_fold(problem));
            folded_time_ = static_cast<Number>(problem.units[unit_to_fold(problem)].time);
            folded_steps_ = problem.units[unit_to_fold(problem)].steps;
        }
        std::stable_sort(units.begin(), units.end(), [&problem](std::size_t a, std::size_t b) {
            return problem.units[a].time < problem.units[b].time;
        });
        const std::size_t fillers = kRowBits - std::min(kRowBits, units.size());
        bits_ = units.size() + fillers;
        times_.assign(bits_, Number{1});
        steps_.assign(bits_, 0);
        bit_of_.assign(problem.units.size(), 0);
        for (std::size_t place = 0; place < units.size(); ++place) {
            times_[fillers + place] = static_cast<Number>(problem.units[units[place]].time);
            steps_[fillers + place] = problem.units[units[place]].steps;
            bit_of_[units[place]] = std::uint64_t{1} << (fillers + place);
        }
        for (const UnitDemand& demand : problem.demands)
            demands_.push_back(
                {bits_of(demand.units), static_cast<Number>(demand.weight), (demand.units & folded_) != 0});
        for (const UnitsDue& one : problem.due)
            due_.push_back({bits_of(one.units), one.steps, (one.units & folded_) != 0});
        least_.reset(new Number[std::size_t{1} << bits_]);  // not filled first: it may be a GiB
    }

    // False when the deadline passed.
    bool fill(const Deadline& deadline) {
        if (!fill_sets(true, deadline)) return false;
        return folded_ == 0 || fill_sets(false, deadline);
    }

    // The unit that is in none of the sets the filled table speaks of; none (0) in a table that is not folded.
    std::uint64_t folded() const noexcept { return folded_; }
    std::int64_t least_after(std::uint64_t learnt) const {
        return static_cast<std::int64_t>(least_[static_cast<std::size_t>(bits_of(learnt))]);
    }

private:
    struct BitDemand {
        std::uint64_t bits;
        Number weight;
        bool needs_folded;
    };
    struct BitsDue {
        std::uint64_t bits;
        std::int64_t steps;
        bool needs_folded;
    };

    std::uint64_t bits_of(std::uint64_t units) const {
        std::uint64_t bits = 0;
        for (; units != 0; units &= units - 1) bits |= bit_of_[static_cast<std::size_t>(std::countr_zero(units))];
        return bits;
    }

    bool fill_sets(bool with_folded, const Deadline& deadline) {
        for (std::size_t row = std::size_t{1} << (bits_ - kRowBits); row-- > 0;) {
            if (row % 1024 == 1023 && deadline.has_passed()) return false;
            count_waiting(row, with_folded);
            fill_row(row, with_folded);
        }
        return true;
    }

    // The met weight of the sets of a row is summed over their subsets, one unit after another.
    void count_waiting(std::size_t row, bool with_folded) {
        std::array<Number, kRow>& met = waiting_;
        met.fill(0);
        const std::uint64_t beyond = ~static_cast<std::uint64_t>(row << kRowBits | (kRow - 1));
        for (const BitDemand& demand : demands_)
            if ((demand.bits & beyond) == 0 && (with_folded || !demand.needs_folded))
                met[demand.bits % kRow] += demand.weight;
        for (std::size_t bit = 1; bit < kRow; bit *= 2)
            for (std::size_t upper = bit; upper < kRow; upper += 2 * bit)
                for (std::size_t i = 0; i < bit; ++i) met[upper + i] += met[upper - bit + i];
        for (Number& number : waiting_) number = weight_ - number;
    }

    // While units of time t are tried, an entry plus t x waiting is the least cost so far.
    void fill_row(std::size_t row, bool with_folded) {
        Number* const least = least_.get() + (row << kRowBits);
        if (with_folded)
            std::fill(least, least + kRow, kFar<Number>);
        else
            add_times<Number, kRow>(least, waiting_.data(), folded_time_ - times_.back());
        for (std::size_t bit = bits_; bit-- > kRowBits;) {
            if (const Number drop = drop_before(bit); drop != 0) add_times<Number, kRow>(least, waiting_.data(), drop);
            const std::size_t with_unit = row | std::size_t{1} << (bit - kRowBits);
            if (with_unit != row) take_less<Number, kRow>(least, least_.get() + (with_unit << kRowBits));
        }
        const bool is_last_row = row + 1 == std::size_t{1} << (bits_ - kRowBits);
        for (std::size_t group = kRow; group > 0;) {
            group -= kLanes;
            const Number* const waiting = waiting_.data() + group;
            for (std::size_t bit = kRowBits; bit-- > kLaneBits;) {
                if (const Number drop = drop_before(bit); drop != 0)
                    add_times<Number, kLanes>(least + group, waiting, drop);
                const std::size_t with_unit = group | std::size_t{1} << bit;
                if (with_unit != group) take_less<Number, kLanes>(least + group, least + with_unit);
            }
            add_times<Number, kLanes>(least + group, waiting, times_[kLaneBits]);
            if (with_folded && is_last_row && group + kLanes == kRow) least[kRow - 1] = 0;
            finish_group(least + group, waiting, (row << kRowBits) + group, with_folded);
        }
    }

    // How much shorter the time of this bit's unit is than that of the unit tried before it.
    Number drop_before(std::size_t bit) const { return bit + 1 == bits_ ? Number{0} : times_[bit + 1] - times_[bit]; }

    // The units of the lowest bits lead from lane to lane. What has come too late for something due leads nowhere: the
    // costs above kFar that come of it are never those of an order, and summed up they stay within the type.
    void finish_group(Number* least, const Number* waiting, std::uint64_t sets, bool with_folded) const {
        for (std::size_t lane = kLanes; lane-- > 0;) {
            for (std::size_t bit = 0; bit < kLaneBits; ++bit) {
                const std::size_t with_unit = lane | std::size_t{1} << bit;
                if (with_unit != lane)
                    least[lane] = std::min(least[lane], times_[bit] * waiting[lane] + least[with_unit]);
            }
            if (!due_.empty() && !is_in_time(sets + lane, with_folded)) least[lane] = kFar<Number>;
        }
    }

    bool is_in_time(std::uint64_t bits, bool with_folded) const {
        return std::all_of(due_.begin(), due_.end(), [&](const BitsDue& one) {
            const bool lacks_folded = one.needs_folded && !with_folded;
            if ((one.bits & ~bits) == 0 && !lacks_folded) return true;
            const std::int64_t folded = with_folded || lacks_folded ? folded_steps_ : 0;
            return steps_of(bits | one.bits) + folded <= one.steps;
        });
    }

    std::int64_t steps_of(std::uint64_t bits) const {
        std::int64_t sum = 0;
        for (; bits != 0; bits &= bits - 1) sum += steps_[static_cast<std::size_t>(std::countr_zero(bits))];
        return sum;
    }

    Number weight_;
    std::uint64_t folded_ = 0;  // a unit, or none
    std::int64_t folded_steps_ = 0;
    Number folded_time_ = 0;
    std::size_t bits_ = 0;
    std::vector<Number> times_;          // by bit
    std::vector<std::uint64_t> bit_of_;  // by unit
    std::vector<BitDemand> demands_;
    std::vector<BitsDue> due_;
    std::vector<std::int64_t> steps_;  // by bit; none for those nobody waits for
    std::array<Number, kRow> waiting_{};
    std::unique_ptr<Number[]> least_;  // h by set
};

// Of the units that keep to the least cost after `learnt`, the one the rule for ties names; empty when none but the
// folded does.
template <typename Number>
std::optional<int> next_unit(const BlockProblem& problem, const Table<Number>& table, std::uint64_t learnt,
                             const music::NoteSet& known) {
    const std::int64_t waiting = problem.waiting_after(learnt);
    std::optional<int> best;
    std::int64_t best_waiting = 0;
    for (std::uint64_t rest = problem.all_units() & ~(learnt | table.folded()); rest != 0; rest &= rest - 1) {
        const int unit = std::countr_zero(rest);
        const std::uint64_t then = learnt | std::uint64_t{1} << unit;
        const Unit& candidate = problem.units[static_cast<std::size_t>(unit)];
        if (candidate.time * waiting + table.least_after(then) != table.least_after(learnt)) continue;
        const std::int64_t then_waiting = problem.waiting_after(then);
        if (!best || then_waiting < best_waiting ||
            (then_waiting == best_waiting &&
             is_easier(candidate.leads, problem.units[static_cast<std::size_t>(*best)].leads, known))) {
            best = unit;
            best_waiting = then_waiting;
        }
    }
    return best;
}

template <typename Number>
std::optional<TableOrder> order_by(const BlockProblem& problem, music::NoteSet known, const Deadline& deadline,
                                   std::size_t fold_above) {
    TableOrder answer;
    std::uint64_t learnt = 0;
    {
        Table<Number> table(problem, fold_above);
        if (!table.fill(deadline)) return std::nullopt;
        answer.cost = table.least_after(0);
        answer.states = std::size_t{1} << problem.units.size();
        while (learnt != problem.all_units() && (learnt & table.folded()) == 0) {
            const std::optional<int> next = next_unit(problem, table, learnt, known);
            INVARIANT(next || table.folded() != 0);
            const int unit = next ? *next : std::countr_zero(table.folded());
            answer.units.push_back(unit);
            learnt |= std::uint64_t{1} << unit;
            known = known | problem.units[static_cast<std::size_t>(unit)].leads;
        }
    }
    if (learnt != problem.all_units()) {
        const RestOfBlock rest = rest_after(problem, learnt);
        const std::optional<TableOrder> last = order_by_table(rest.problem, known, deadline, fold_above);
        if (!last) return std::nullopt;
        for (const int unit : last->units) answer.units.push_back(rest.units[static_cast<std::size_t>(unit)]);
        answer.states += last->states;
    }
    INVARIANT(cost_of_units(problem, answer.units) == answer.cost);
    return answer;
}

}  // namespace

std::uint64_t table_bytes(const BlockProblem& problem, std::size_t fold_above) noexcept {
    if (problem.units.size() > 40) return std::numeric_limits<std::uint64_t>::max();
    return (bytes_of_entry(problem) << problem.units.size()) / (is_folded(problem, fold_above) ? 2 : 1);
}

std::optional<TableOrder> order_by_table(const BlockProblem& problem, const music::NoteSet& known,
                                         const Deadline& deadline, std::size_t fold_above) {
    if (problem.units.empty()) return TableOrder{};
    return fits_32_bits(problem) ? order_by<std::int32_t>(problem, known, deadline, fold_above)
                                 : order_by<std::int64_t>(problem, known, deadline, fold_above);
}

}  // namespace planner
