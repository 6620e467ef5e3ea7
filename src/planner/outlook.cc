// The bound. Split the weight of each waiting demand over its missing units in any way, and let a unit answer for the
// sum of its shares: then a set of units never meets more than it answers for, and in time t no more is met than by the
// units that answer for most in their time, the last of them taken in part. Summed over t that is a bound for any split
// (the best split gives the bound of the blocks of the rest, see bound.h). A demand that takes longer than t cannot be
// met within t, so its shares count only from its own time on: on printed collections, where a tune needs eight notes
// or so, this is most of the strength.
//
// The split: each unit has a price and demands pay shares in proportion to prices; units that answer for much become
// cheaper. Prices found for one set of learnt units are nearly right for the sets reached from it, so three rounds do
// there. Prices taken from whatever set was looked at before, good or bad, cost three times the states.
//
// All in whole numbers. Shares are rounded up, so that a demand's shares never sum to less than its weight; what is met
// in time t is rounded down, for it is a sum of whole weights. Prices are found in floating point: any prices are
// valid. Tested by tests/unit/planner/outlook_test.cc.
#include "planner/outlook.h"

#include <algorithm>
#include <bit>
#include <utility>

namespace planner {
namespace {

constexpr Outlook::Price kTopPrice = 1U << 14;
constexpr int kRounds = 3;        // Source: house choice, measured
constexpr int kFirstRounds = 30;  // where all prices are equal yet

// Scaled weights stay below 2^48, so that times a unit's time (below 2^14) they stay below 2^62.
constexpr int kShareBits = 48;
constexpr int kMostScaleBits = 30;

}  // namespace

Outlook::Outlook(const BlockProblem& problem)
    : problem_(problem),
      scale_bits_(std::min(
          kMostScaleBits, kShareBits - static_cast<int>(std::bit_width(static_cast<std::uint64_t>(problem.weight))))) {}

void Outlook::look_from(std::uint64_t learnt) {
    learnt_ = learnt;
    waiting_ = 0;
    unsorted_.clear();
    // The more is learnt, the more demands lack the same: each set once, found by open addressing.
    constexpr std::uint32_t kFree = ~std::uint32_t{0};
    const int slot_bits = static_cast<int>(std::bit_width(2 * problem_.demands.size()));
    slots_.assign(std::size_t{1} << slot_bits, kFree);
    for (const UnitDemand& demand : problem_.demands) {
        const std::uint64_t units = demand.units & ~learnt;
        if (units == 0) continue;
        waiting_ += demand.weight;
        // Source of the factor: 2^64 / golden ratio, D. E. Knuth, "The Art of Computer Programming" vol. 3,
        // section 6.4.
        std::size_t slot = static_cast<std::size_t>(units * 0x9E3779B97F4A7C15U >> (64 - slot_bits));
        while (slots_[slot] != kFree && unsorted_[slots_[slot]].units != units) slot = (slot + 1) % slots_.size();
        if (slots_[slot] == kFree) {
            slots_[slot] = static_cast<std::uint32_t>(unsorted_.size());
            unsorted_.push_back({units, 0, static_cast<std::size_t>(problem_.time_of(units))});
        }
        unsorted_[slots_[slot]].weight += demand.weight;
    }
    sort_by_time(problem_.all_units() & ~learnt, missing_);
}

// unsorted_ into `sorted`, by counting: the places of each time are first counted from its begin, and end where the
// next begins.
void Outlook::sort_by_time(std::uint64_t rest, std::vector<Missing>& sorted) {
    end_of_time_.assign(static_cast<std::size_t>(problem_.time_of(rest)) + 1, 0);
    for (const Missing& missing : unsorted_) ++end_of_time_[missing.time];
    std::size_t begin = 0;
    for (std::size_t& place : end_of_time_) begin += std::exchange(place, begin);
    sorted.resize(unsorted_.size());
    for (const Missing& missing : unsorted_) sorted[end_of_time_[missing.time]++] = missing;
}

void Outlook::look_beyond(std::uint64_t way) {
    const std::uint64_t rest = problem_.all_units() & ~(learnt_ | way);
    rest_.clear();
    for (std::uint64_t units = rest; units != 0; units &= units - 1) rest_.push_back(std::countr_zero(units));

    waiting_beyond_ = 0;
    unsorted_.resize(missing_.size());
    std::size_t count = 0;
    for (const Missing& missing : missing_) {
        const std::uint64_t units = missing.units & ~way;
        if (units == 0) continue;
        const auto learnt_time = static_cast<std::size_t>(problem_.time_of(missing.units & way));
        unsorted_[count++] = {units, missing.weight, missing.time - learnt_time};
        waiting_beyond_ += missing.weight;
    }
    unsorted_.resize(count);
    sort_by_time(rest, missing_beyond_);
}

std::int64_t Outlook::least_beyond(std::uint64_t way, std::span<const Price> prices, std::int64_t enough) {
    look_beyond(way);
    prices_.fill(kTopPrice);
    std::copy(prices.begin(), prices.end(), prices_.begin());
    std::array<Price, kMaxUnits> best_prices = prices_;
    std::int64_t least = 0;
    for (int round = 0; round < (prices.empty() ? kFirstRounds : kRounds) && least <= enough; ++round) {
        if (round > 0) level_prices();
        const std::int64_t bound = bound_by_shares();
        if (bound <= least) continue;
        least = bound;
        best_prices = prices_;
    }
    prices_ = best_prices;
    return least;
}

std::int64_t Outlook::bound_by_shares() {
    std::int64_t least = 0;
    std::int64_t could_be_met = 0;
    std::size_t shared_out = 0;
    shares_.fill(0);
    for (std::size_t time = 0; time < end_of_time_.size(); ++time) {
        for (; shared_out < end_of_time_[time]; ++shared_out) {
            share_out(missing_beyond_[shared_out]);
            could_be_met += missing_beyond_[shared_out].weight;
        }
        sort_by_share();
        least += waiting_beyond_ - std::min(could_be_met, most_met_within(static_cast<std::int64_t>(time)));
    }
    return least;
}

void Outlook::share_out(const Missing& missing) {
    std::uint64_t prices = 0;
    for (std::uint64_t units = missing.units; units != 0; units &= units - 1)
        prices += prices_[static_cast<std::size_t>(std::countr_zero(units))];
    const std::uint64_t pays = (static_cast<std::uint64_t>(missing.weight) << scale_bits_) / prices + 1;
    for (std::uint64_t units = missing.units; units != 0; units &= units - 1) {
        const auto unit = static_cast<std::size_t>(std::countr_zero(units));
        shares_[unit] += static_cast<std::int64_t>(pays * prices_[unit]);
    }
}

void Outlook::sort_by_share() {
    // By insertion: the order changes little from one time to the next.
    const auto answers_for_more = [this](int a, int b) {
        return shares_[static_cast<std::size_t>(a)] * problem_.units[static_cast<std::size_t>(b)].time >
               shares_[static_cast<std::size_t>(b)] * problem_.units[static_cast<std::size_t>(a)].time;
    };
    for (std::size_t next = 1; next < rest_.size(); ++next) {
        const int unit = rest_[next];
        std::size_t place = next;
        for (; place > 0 && answers_for_more(unit, rest_[place - 1]); --place) rest_[place] = rest_[place - 1];
        rest_[place] = unit;
    }
}

std::int64_t Outlook::most_met_within(std::int64_t time) const {
    std::int64_t scaled = 0;
    for (const int unit : rest_) {
        if (time == 0) break;
        const std::int64_t takes = problem_.units[static_cast<std::size_t>(unit)].time;
        const std::int64_t share = shares_[static_cast<std::size_t>(unit)];
        if (takes > time) {
            scaled += (share * time + takes - 1) / takes;
            break;
        }
        scaled += share;
        time -= takes;
    }
    return scaled >> scale_bits_;
}

void Outlook::level_prices() {
    std::array<double, kMaxUnits> levelled{};
    double top = 0;
    for (const int number : rest_) {
        const auto unit = static_cast<std::size_t>(number);
        levelled[unit] =
            prices_[unit] * static_cast<double>(problem_.units[unit].time) / static_cast<double>(shares_[unit]);
        top = std::max(top, levelled[unit]);
    }
    for (const int number : rest_) {
        const auto unit = static_cast<std::size_t>(number);
        prices_[unit] = static_cast<Price>(std::max(1.0, levelled[unit] / top * kTopPrice));
    }
}

std::vector<std::uint64_t> Outlook::smallest_ways() const {
    std::vector<std::uint64_t> ways;
    for (const Missing& missing : missing_) {
        const auto is_within = [&missing](std::uint64_t way) { return (way & ~missing.units) == 0; };
        if (std::none_of(ways.begin(), ways.end(), is_within)) ways.push_back(missing.units);
    }
    return ways;
}

}  // namespace planner
