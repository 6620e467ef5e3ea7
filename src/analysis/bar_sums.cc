// A short bar is made up when it fills a whole bar together with what a player comes from or goes on to: over a repeat
// sign, a double bar or a part label any end of a part may lead to any beginning; an ending is come to from the bar
// before the first one of its group. Source: common practice, no source. Tested by bar_sums_test.cc.
#include "analysis/bar_sums.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <utility>

namespace analysis {

namespace {

using music::Duration;

// Fewer bars say nothing of the meter as a whole. Source: house choice.
constexpr int kFewestBarsForMisfit = 4;

// Different lengths of pick-ups, or of last bars, that are compared: real tunes have two or three. Source: house
// choice.
constexpr std::size_t kMaxPieces = 12;

bool is_twice(const Duration& length, const Duration& half) { return product(half, Duration(2, 1)) == length; }

// A bar in which time passes.
struct Timed {
    enum class Size : std::uint8_t { whole, shorter, longer };

    std::uint32_t bar = 0;
    Size size = Size::whole;
    Duration length;
    Duration due;
    std::optional<Duration> carrier;  // the length of a last rest that may only bear a fermata
    bool starts_part = false;
    bool ends_part = false;
    bool starts_ending = false;
    std::optional<std::size_t> before_endings;  // of an ending: the bar all endings of the group are come to from

    bool is_short() const { return size == Size::shorter; }
};

void judge_size(Timed& timed) {
    timed.size = timed.length < timed.due   ? Timed::Size::shorter
                 : timed.due < timed.length ? Timed::Size::longer
                                            : Timed::Size::whole;
}

Timed timed_bar(const music::Bar& bar, std::uint32_t index) {
    Timed timed;
    timed.bar = index;
    timed.starts_ending = !bar.ending.empty();
    if (bar.meter.is_free() || !bar.length || bar.unit_rests != 1) return timed;
    timed.length = *bar.length;
    timed.due = bar.meter.bar_length();
    judge_size(timed);
    return timed;
}

// A fermata over a bar line is written over a rest that is not printed, `G6 Hx ||`: nobody counts it.
void find_carriers(const music::Melody& melody, std::vector<Timed>& bars) {
    for (const music::OrderMark& mark : melody.order) {
        if (mark.kind != music::OrderMark::Kind::fermata || mark.before_sound >= melody.sounds.size()) continue;
        const music::Sound& sound = melody.sounds[mark.before_sound];
        const std::size_t next = mark.before_sound + std::size_t{1};
        const bool ends_bar = next == melody.sounds.size() || melody.sounds[next].bar != sound.bar;
        if (sound.kind != music::Sound::Kind::rest || !ends_bar) continue;
        const auto timed = std::lower_bound(bars.begin(), bars.end(), sound.bar,
                                            [](const Timed& one, std::uint32_t bar) { return one.bar < bar; });
        if (timed != bars.end() && timed->bar == sound.bar && sound.length < timed->length)
            timed->carrier = sound.length;
    }
}

std::vector<Timed> find_timed_bars(const music::Melody& melody) {
    std::vector<Timed> timed;
    std::optional<std::size_t> before_endings;
    auto part = melody.parts.begin();
    bool part_is_marked = false;
    for (std::uint32_t index = 0; index < melody.bars.size(); ++index) {
        const music::Bar& bar = melody.bars[index];
        for (; part != melody.parts.end() && part->before_sound <= bar.first_sound; ++part) part_is_marked = true;
        if (bar.length == Duration()) continue;
        Timed& now = timed.emplace_back(timed_bar(bar, index));
        const music::Bar* before = timed.size() > 1 ? &melody.bars[timed[timed.size() - 2].bar] : nullptr;
        const bool is_parted =
            before == nullptr || before->repeat_closes || before->thick_after || before->meter != bar.meter;
        now.starts_part = (is_parted && !now.starts_ending) || bar.repeat_opens || part_is_marked;
        if (now.starts_part) before_endings.reset();
        const bool is_first_ending = now.starts_ending && !before_endings && before != nullptr;
        if (is_first_ending) before_endings = timed.size() - 2;
        if (now.starts_ending) now.before_endings = before_endings;
        if (before != nullptr && (now.starts_part || (now.starts_ending && !is_first_ending)))
            timed[timed.size() - 2].ends_part = true;
        if (bar.repeat_closes) now.ends_part = true;
        part_is_marked = false;
    }
    if (!timed.empty()) timed.back().ends_part = true;
    return timed;
}

// Lengths that may make up a short bar; the first is nothing at all.
class Pieces {
public:
    Pieces() : all_{Duration()} {}

    void add(const std::optional<Duration>& length) {
        if (length && all_.size() < kMaxPieces && std::find(all_.begin(), all_.end(), *length) == all_.end())
            all_.push_back(*length);
    }
    const std::vector<Duration>& all() const { return all_; }

private:
    std::vector<Duration> all_;
};

class Flow {
public:
    explicit Flow(const std::vector<Timed>& bars) : bars_(bars) {
        for (std::size_t at = 0; at < bars.size(); ++at) {
            if (!bars[at].is_short()) continue;
            if (bars[at].starts_part) beginnings_.add(bars[at].length);
            if (!bars[at].ends_part) continue;
            const Pieces before = come_from(at);
            for (const Duration& first : before.all()) ends_.add(sum(first, bars[at].length));
        }
    }

    bool is_made_up(std::size_t at) const {
        const Pieces before = bars_[at].starts_part ? ends_ : come_from(at);
        const Pieces after = go_to(at);
        for (const Duration& first : before.all())
            for (const Duration& last : after.all()) {
                const auto both = sum(first, last);
                if (both && sum(*both, bars_[at].length) == bars_[at].due) return true;
            }
        return false;
    }

private:
    // Within the part.
    Pieces come_from(std::size_t at) const {
        Pieces pieces;
        const auto& before = bars_[at].before_endings;
        if (before && bars_[*before].is_short()) pieces.add(bars_[*before].length);
        return pieces;
    }

    Pieces go_to(std::size_t at) const {
        if (bars_[at].ends_part) return beginnings_;
        Pieces pieces;
        if (at + 1 == bars_.size() || !bars_[at + 1].starts_ending || !bars_[at + 1].is_short()) return pieces;
        pieces.add(bars_[at + 1].length);
        if (!bars_[at + 1].ends_part) return pieces;
        for (const Duration& beginning : beginnings_.all()) pieces.add(sum(bars_[at + 1].length, beginning));
        return pieces;
    }

    const std::vector<Timed>& bars_;
    Pieces beginnings_;
    Pieces ends_;
};

// A pick-up that no last bar makes room for is left alone up to half a bar: many are written so. Source: common
// practice, no source.
bool is_plain_pickup(const std::vector<Timed>& bars, std::size_t at) {
    const Timed& bar = bars[at];
    if (!bar.is_short() || !bar.starts_part) return false;
    const auto twice = sum(bar.length, bar.length);
    return at == 0 ? bars.size() > 1 : twice && !(bar.due < *twice);
}

// Bars that nothing makes up, as places in `bars`.
std::vector<std::size_t> find_odd(const std::vector<Timed>& bars) {
    const Flow flow(bars);
    std::vector<std::size_t> odd;
    for (std::size_t at = 0; at < bars.size(); ++at) {
        if (bars[at].size == Timed::Size::whole || is_plain_pickup(bars, at)) continue;
        if (bars[at].is_short() && flow.is_made_up(at)) continue;
        odd.push_back(at);
    }
    return odd;
}

// Rests under a fermata count where the bars add up with them, and not where fewer are odd without them.
std::vector<std::size_t> settle_carriers(std::vector<Timed>& bars) {
    std::vector<std::size_t> odd = find_odd(bars);
    std::vector<Timed> without = bars;
    bool is_other = false;
    for (const std::size_t at : odd) {
        Timed& bar = without[at];
        if (!bar.carrier) continue;
        const auto left = sum(bar.length, Duration(-bar.carrier->numerator(), bar.carrier->denominator()));
        if (!left) continue;
        bar.length = *left;
        judge_size(bar);
        is_other = true;
    }
    if (!is_other) return odd;
    std::vector<std::size_t> odd_without = find_odd(without);
    if (odd_without.size() >= odd.size()) return odd;
    bars = std::move(without);
    return odd_without;
}

// Of all bars under one meter.
struct MeterCount {
    MeterMisfit misfit;
    std::map<std::pair<std::int64_t, std::int64_t>, int> by_length;  // of the misfits
};

using MeterCounts = std::vector<MeterCount>;

class MetersMet {
public:
    MeterCount& of(const music::Meter& meter) {
        const auto [place, is_new] = places_.emplace(std::pair(meter.beats, meter.unit), counts_.size());
        if (is_new) counts_.emplace_back().misfit.meter = meter;
        return counts_[place->second];
    }
    MeterCounts& all() { return counts_; }

private:
    std::map<std::pair<std::uint16_t, std::uint16_t>, std::size_t> places_;
    MeterCounts counts_;
};

MetersMet count_meters(const music::Melody& melody, const std::vector<Timed>& bars,
                       const std::vector<std::size_t>& odd) {
    MetersMet meters;
    auto next_odd = odd.begin();
    for (std::size_t at = 0; at < bars.size(); ++at) {
        const music::Meter& meter = melody.bars[bars[at].bar].meter;
        const bool is_odd = next_odd != odd.end() && *next_odd == at;
        if (is_odd) ++next_odd;
        if (meter.is_free() || (!is_odd && bars[at].size != Timed::Size::whole)) continue;
        MeterCount& count = meters.of(meter);
        ++count.misfit.bars;
        if (!is_odd) continue;
        if (count.misfit.misfits++ == 0) count.misfit.first_bar = bars[at].bar;
        ++count.by_length[{bars[at].length.numerator(), bars[at].length.denominator()}];
    }
    return meters;
}

bool misfits(const MeterMisfit& misfit) {
    return misfit.bars >= kFewestBarsForMisfit && misfit.misfits * 2 > misfit.bars;
}

bool is_at_edge(const std::vector<Timed>& bars, std::size_t at) {
    const bool leads_to_ending = at + 1 < bars.size() && bars[at + 1].starts_ending;
    return bars[at].starts_part || bars[at].ends_part || bars[at].starts_ending || leads_to_ending;
}

// Whether the odd bar is more than its own fault, together with the next one.
OddBar::Likely likely_fault(const std::vector<Timed>& bars, std::size_t at, std::optional<std::size_t> next) {
    const Timed& bar = bars[at];
    if (next == at + 1 && !bar.ends_part && !bars[*next].starts_ending && !bars[*next].starts_part) {
        const auto both = sum(bar.length, bars[*next].length);
        if (both == bar.due) return OddBar::Likely::line_too_many;
        if (both && is_twice(*both, bar.due)) return OddBar::Likely::line_misplaced;
    }
    return is_twice(bar.length, bar.due) ? OddBar::Likely::line_missing : OddBar::Likely::note_length;
}

}  // namespace

BarSums add_up_bars(const music::Melody& melody) {
    BarSums sums;
    std::vector<Timed> bars = find_timed_bars(melody);
    find_carriers(melody, bars);
    const std::vector<std::size_t> odd = settle_carriers(bars);
    if (odd.empty()) return sums;
    MetersMet meters = count_meters(melody, bars, odd);
    for (const MeterCount& count : meters.all()) {
        if (!misfits(count.misfit)) continue;
        MeterMisfit& misfit = sums.misfits.emplace_back(count.misfit);
        for (const auto& [length, times] : count.by_length)
            if (times * 2 > misfit.bars) misfit.length = Duration(length.first, length.second);
    }
    for (std::size_t index = 0; index < odd.size(); ++index) {
        const std::size_t at = odd[index];
        if (misfits(meters.of(melody.bars[bars[at].bar].meter).misfit)) continue;
        const auto next = index + 1 < odd.size() ? std::optional(odd[index + 1]) : std::nullopt;
        const OddBar::Likely likely = likely_fault(bars, at, next);
        sums.odd.push_back({bars[at].bar, likely, is_at_edge(bars, at)});
        if (likely == OddBar::Likely::line_too_many || likely == OddBar::Likely::line_misplaced) ++index;
    }
    return sums;
}

}  // namespace analysis
