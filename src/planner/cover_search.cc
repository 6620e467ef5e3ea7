// Depth first: the note that most of what can still be met needs is taken, then left out. A demand is dropped once it
// needs a note left out or more notes than are to come; that second rule is what makes small sets quick, for a tune
// needs eight notes or so.
//
// The bound splits the worth of each demand over its missing notes in any way; then so many notes meet no more than the
// greatest so many sums of shares. Prices make the split and are levelled as in outlook.cc. Once shares are there, they
// settle notes as well: one that would have to stand in for a greater share, or whose loss costs too much, is out or in
// (fixing by reduced cost, common practice of integer programming, no source). All in whole numbers, shares rounded up.
// Tested by tests/unit/planner/cover_test.cc.
#include "planner/cover_search.h"

#include <algorithm>
#include <bit>

#include "music/pitch.h"

namespace planner {
namespace {

constexpr std::uint16_t kTopShare = 1U << 14;
constexpr int kRoundsBelow = 3;    // Source: house choice
constexpr int kRoundsAtRoot = 30;  // where all prices are equal yet
constexpr int kBoundBits = 61;
constexpr int kMostBoundScaleBits = 30;
constexpr std::size_t kStatesBetweenLooks = 64;  // at the clock

constexpr music::NoteSet every_natural() noexcept {
    music::NoteSet naturals;
    for (int note = 0; note < music::kMidiNotes; ++note)
        for (const int semitones : music::kNaturalSemitones)
            if (note % 12 == semitones) naturals.add(note);
    return naturals;
}
constexpr music::NoteSet kNaturals = every_natural();

// The first so many of `notes` in the order of comes_before.
music::NoteSet lowest_of(const music::NoteSet& notes, std::size_t count) {
    music::NoteSet lowest;
    for_each_note(notes, [&](int note) {
        if (count == 0) return;
        lowest.add(note);
        --count;
    });
    return lowest;
}

music::NoteSet only(int note) noexcept {
    music::NoteSet set;
    set.add(note);
    return set;
}

}  // namespace

Worth worth_of_naturals(const music::NoteSet& notes) noexcept { return (notes & kNaturals).size(); }

std::int64_t weight_within(std::span<const Demand> demands, const music::NoteSet& notes) noexcept {
    std::int64_t weight = 0;
    for (const Demand& demand : demands) weight += demand.missing.is_within(notes) ? demand.weight : 0;
    return weight;
}

Worth worth_of(std::span<const Demand> demands, const music::NoteSet& notes) noexcept {
    return kWorthOfWeight * weight_within(demands, notes) + worth_of_naturals(notes);
}

void BestSets::offer(const music::NoteSet& notes, Worth worth) {
    if (!could_keep(worth, notes)) return;
    const auto is_better = [](const Ranked& a, const Ranked& b) {
        return a.worth != b.worth ? a.worth > b.worth : comes_before(a.notes, b.notes);
    };
    const Ranked ranked{notes, worth};
    const auto place = std::lower_bound(kept_.begin(), kept_.end(), ranked, is_better);
    if (place != kept_.end() && place->notes == notes) return;
    kept_.insert(place, ranked);
    if (kept_.size() > room_) kept_.pop_back();
}

bool BestSets::could_keep(Worth worth, const music::NoteSet& earliest) const noexcept {
    if (!is_full()) return worth >= least_;
    if (worth != kept_.back().worth) return worth > kept_.back().worth;
    return comes_before(earliest, kept_.back().notes);
}

CoverSearch::CoverSearch(std::span<const Demand> demands, BestSets& best, std::size_t max_states,
                         const Deadline& deadline)
    : demands_(demands), best_(best), max_states_(max_states), deadline_(deadline) {
    Worth all = music::kMidiNotes;
    for (const Demand& demand : demands) all += kWorthOfWeight * demand.weight;
    scale_bits_ =
        std::min(kMostBoundScaleBits, kBoundBits - static_cast<int>(std::bit_width(static_cast<std::uint64_t>(all))));
}

void CoverSearch::run(const music::NoteSet& chosen, const music::NoteSet& free, std::size_t more) {
    State start;
    start.free = chosen | free;
    start.more = more + static_cast<std::size_t>(chosen.size());
    start.prices.fill(kTopShare);
    for (const Demand& demand : demands_)
        if (demand.missing.is_within(start.free))
            start.waiting.push_back({demand.missing, kWorthOfWeight * demand.weight});
    State state = decided(start, chosen, {});
    look(state, kRoundsAtRoot);
}

void CoverSearch::look(State& state, int rounds) {
    ++states_;
    if (states_ > max_states_ || (states_ % kStatesBetweenLooks == 1 && deadline_.has_passed())) is_ended_ = true;
    Worth most = 0;
    for (;;) {
        most = bound(state, rounds);
        if (!best_.could_keep(most, state.chosen | lowest_of(state.free, state.more))) return;
        const auto free_count = static_cast<std::size_t>(state.free.size());
        if (state.more == 0 || state.more == free_count) {
            const music::NoteSet notes = state.more == 0 ? state.chosen : state.chosen | state.free;
            best_.offer(notes, worth_of(demands_, notes));
            return;
        }
        music::NoteSet in, out;
        if (!settle_notes(state, in, out)) break;
        if (static_cast<std::size_t>(in.size()) > state.more ||
            static_cast<std::size_t>(out.size()) > free_count - state.more)
            return;  // nothing is left to keep
        state = decided(state, in, out);
        rounds = 1;
    }
    if (is_ended_) {
        most_unseen_ = std::max(most_unseen_, most);
        return;
    }
    const music::NoteSet note = only(most_needed(state));
    State with = decided(state, note, {});
    look(with, kRoundsBelow);
    State without = decided(state, {}, note);
    look(without, kRoundsBelow);
}

CoverSearch::State CoverSearch::decided(const State& state, const music::NoteSet& in, const music::NoteSet& out) const {
    State next;
    next.chosen = state.chosen | in;
    next.free = state.free.without(in | out);
    next.more = state.more - static_cast<std::size_t>(in.size());
    next.sure = state.sure + worth_of_naturals(in);
    next.prices = state.prices;
    next.waiting.reserve(state.waiting.size());
    for (const Waiting& waiting : state.waiting) {
        const music::NoteSet missing = waiting.missing.without(in);
        if (missing.empty())
            next.sure += waiting.worth;
        else if ((missing & out).empty() && static_cast<std::size_t>(missing.size()) <= next.more)
            next.waiting.push_back({missing, waiting.worth});
    }
    return next;
}

Worth CoverSearch::bound(State& state, int rounds) {
    Worth least = std::numeric_limits<Worth>::max();
    Prices best_prices = state.prices;
    for (int round = 0; round < rounds && least >= best_.least_kept(); ++round) {
        if (round > 0) level_prices(state);
        const Worth bound = bound_by_shares(state);
        if (bound >= least) continue;
        least = bound;
        best_prices = state.prices;
        best_shares_ = shares_;
    }
    state.prices = best_prices;
    return least;
}

Worth CoverSearch::bound_by_shares(const State& state) {
    std::array<Worth, music::kMidiNotes> scaled{};
    Worth most = 0;
    for (const Waiting& waiting : state.waiting) {
        most += waiting.worth;
        std::uint64_t prices = 0;
        for_each_note(waiting.missing, [&](int note) { prices += state.prices[static_cast<std::size_t>(note)]; });
        const std::uint64_t pays = (static_cast<std::uint64_t>(waiting.worth) << scale_bits_) / prices + 1;
        for_each_note(waiting.missing, [&](int note) {
            const auto place = static_cast<std::size_t>(note);
            scaled[place] += static_cast<Worth>(pays * state.prices[place]);
        });
    }
    shares_.clear();
    for_each_note(state.free, [&](int note) {
        const Worth natural = kNaturals.has(note) ? Worth{1} << scale_bits_ : 0;
        shares_.push_back({note, scaled[static_cast<std::size_t>(note)] + natural});
    });
    std::sort(shares_.begin(), shares_.end(), [](const Share& a, const Share& b) {
        return a.scaled != b.scaled ? a.scaled > b.scaled : a.note < b.note;
    });
    Worth sum = 0;
    for (std::size_t place = 0; place < state.more; ++place) sum += shares_[place].scaled;
    return state.sure + std::min(sum >> scale_bits_, most + static_cast<Worth>(state.more));
}

// Notes that answer for much become cheaper. Found in floating point: any prices are valid.
void CoverSearch::level_prices(State& state) const {
    std::array<double, music::kMidiNotes> levelled{};
    double top = 0;
    for (const Share& share : shares_) {
        const auto place = static_cast<std::size_t>(share.note);
        if (share.scaled > 0) levelled[place] = state.prices[place] / static_cast<double>(share.scaled);
        top = std::max(top, levelled[place]);
    }
    for (const Share& share : shares_) {
        const auto place = static_cast<std::size_t>(share.note);
        state.prices[place] = static_cast<Price>(std::max(1.0, top > 0 ? levelled[place] / top * kTopShare : 1.0));
    }
}

// Notes that every set worth keeping has, and notes that none has. False where there are none of either. There are more
// free notes than are to come in.
bool CoverSearch::settle_notes(const State& state, music::NoteSet& in, music::NoteSet& out) const {
    const Worth needed = best_.least_kept() - state.sure;
    Worth sum = 0;
    for (std::size_t place = 0; place < state.more; ++place) sum += best_shares_[place].scaled;
    const Worth last_in = best_shares_[state.more - 1].scaled;
    const Worth first_out = best_shares_[state.more].scaled;
    for (std::size_t place = 0; place < best_shares_.size(); ++place) {
        const Share& share = best_shares_[place];
        if (place < state.more && (sum - share.scaled + first_out) >> scale_bits_ < needed) in.add(share.note);
        if (place >= state.more && (sum - last_in + share.scaled) >> scale_bits_ < needed) out.add(share.note);
    }
    // Without a note nothing that needs it is met.
    std::array<Worth, music::kMidiNotes> needs{};
    Worth most = static_cast<Worth>(state.more);
    for (const Waiting& waiting : state.waiting) {
        most += waiting.worth;
        for_each_note(waiting.missing, [&](int note) { needs[static_cast<std::size_t>(note)] += waiting.worth; });
    }
    for_each_note(state.free, [&](int note) {
        if (most - needs[static_cast<std::size_t>(note)] < needed) in.add(note);
    });
    if (!(in & out).empty()) {  // no set is worth keeping: more comes in than there is room for
        in = state.free;
        return true;
    }
    return !(in | out).empty();
}

int CoverSearch::most_needed(const State& state) const {
    std::array<Worth, music::kMidiNotes> needs{};
    for (const Waiting& waiting : state.waiting)
        for_each_note(waiting.missing, [&](int note) { needs[static_cast<std::size_t>(note)] += waiting.worth; });
    int most = state.free.lowest();
    for_each_note(state.free, [&](int note) {
        const auto worth = [&needs](int of) {
            return needs[static_cast<std::size_t>(of)] + (kNaturals.has(of) ? 1 : 0);
        };
        if (worth(note) > worth(most)) most = note;
    });
    return most;
}

}  // namespace planner
