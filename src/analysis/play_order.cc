// Repeats as ABC writes them: `:|` goes back to the last `|:`, or to where the part began, once; with endings, as often
// as there is another one to play. Tested by play_order_test.cc.
#include "analysis/play_order.h"

#include <algorithm>
#include <map>

namespace analysis {

namespace {

using tune::Outline;
using tune::OutlineBar;

constexpr unsigned kMostTimes = 16;  // the bits of OutlineBar::endings

// How far ahead the ending of another time is sought, in bars. Source: house choice; it keeps a hostile file from
// costing the square of its bars.
constexpr std::size_t kEndingReach = 256;

bool is_empty(const Outline& outline, std::size_t bar) { return outline.end_of(bar) == outline.bars[bar].first_note; }

// The reader's place in the written bars while it plays them.
class PlayWalk {
public:
    explicit PlayWalk(const Outline& outline) : outline_(outline) {}

    std::vector<std::uint32_t> play() {
        std::vector<std::uint32_t> played;
        while (at_ < outline_.bars.size()) {
            const OutlineBar& bar = outline_.bars[at_];
            enter(bar);
            if (bar.endings != 0 && (bar.endings >> time_ & 1U) == 0 && skip_ending()) continue;
            if (!bar.is_pickup) played.push_back(static_cast<std::uint32_t>(at_));
            if (bar.repeat_closes && goes_back()) {
                ++time_;
                at_ = start_;
                continue;
            }
            ++at_;
            if (bar.repeat_closes && (at_ >= outline_.bars.size() || outline_.bars[at_].endings == 0)) begin_section();
        }
        return played;
    }

private:
    void begin_section() {
        start_ = at_;
        time_ = 0;
        endings_ = 0;
    }
    void enter(const OutlineBar& bar) {
        const bool is_new_part = bar.begins_part && bar.endings == 0 && time_ > 0;
        if (at_ != start_ && (bar.repeat_opens || is_new_part)) begin_section();
        endings_ |= bar.endings;
    }
    bool goes_back() const {
        if (time_ + 1 >= kMostTimes) return false;
        return time_ == 0 || (endings_ >> (time_ + 1) & 1U) != 0 || has_ending_ahead(time_ + 1);
    }
    // Among the endings that follow one another from here.
    bool has_ending_ahead(unsigned time) const {
        const std::size_t reach = std::min(outline_.bars.size(), at_ + kEndingReach);
        for (std::size_t bar = at_ + 1; bar < reach; ++bar) {
            const unsigned endings = outline_.bars[bar].endings;
            if (outline_.bars[bar].repeat_opens || (outline_.bars[bar - 1].repeat_closes && endings == 0)) return false;
            if ((endings >> time & 1U) != 0) return true;
        }
        return false;
    }
    // To the ending of this time; where there is none, behind the `:|` of the one in the way. False: play what is
    // written.
    bool skip_ending() {
        std::size_t behind = 0;
        const std::size_t reach = std::min(outline_.bars.size(), at_ + kEndingReach);
        for (std::size_t bar = at_ + 1; bar <= reach; ++bar) {
            if (behind == 0 && outline_.bars[bar - 1].repeat_closes) behind = bar;
            if (bar == outline_.bars.size() || outline_.bars[bar].repeat_opens) break;
            if ((outline_.bars[bar].endings >> time_ & 1U) == 0) continue;
            at_ = bar;
            return true;
        }
        if (behind == 0 || time_ == 0) return false;
        at_ = behind;
        begin_section();
        return true;
    }

    const Outline& outline_;
    std::size_t at_ = 0;
    std::size_t start_ = 0;  // where `:|` goes back to
    unsigned time_ = 0;      // 0 while playing it the first time
    unsigned endings_ = 0;   // all those seen since start_
};

// Whether two bars have the same notes at the same times; where `second` ends early, as far as it goes.
bool are_same(const Outline& outline, std::uint32_t first, std::uint32_t second, bool may_end_early) {
    const std::size_t from = outline.bars[first].first_note, other = outline.bars[second].first_note;
    const std::size_t count = outline.end_of(first) - from, other_count = outline.end_of(second) - other;
    if (count < other_count || (count > other_count && !may_end_early)) return false;
    const auto begin = outline.notes.begin();
    const auto notes = begin + static_cast<std::ptrdiff_t>(from), others = begin + static_cast<std::ptrdiff_t>(other);
    if (!std::equal(others, others + static_cast<std::ptrdiff_t>(other_count), notes)) return false;
    return count == other_count || notes[static_cast<std::ptrdiff_t>(other_count)].at >= outline.bars[second].length;
}

void trim(const Outline& outline, std::vector<std::uint32_t>& played) {
    while (!played.empty() && is_empty(outline, played.back())) played.pop_back();
    const auto first =
        std::find_if(played.begin(), played.end(), [&](std::uint32_t bar) { return !is_empty(outline, bar); });
    played.erase(played.begin(), first);
}

// What is played on going back to the beginning: nothing where the tune ends in its last bar.
std::vector<std::uint32_t> bars_back(const Outline& outline) {
    std::vector<std::uint32_t> bars;
    if (!outline.end || *outline.end == 0 || outline.bars.empty()) return bars;
    const auto bar_of = [&](std::size_t note) {
        const auto after = std::upper_bound(outline.bars.begin(), outline.bars.end(), note,
                                            [](std::size_t at, const OutlineBar& bar) { return at < bar.first_note; });
        return static_cast<std::size_t>(after - outline.bars.begin()) - 1;
    };
    const std::size_t last = bar_of(*outline.end - 1);
    if (last == bar_of(outline.notes.size() - 1)) return bars;
    // The ending of the same group behind this one; the bar itself where there is none up to the end.
    const auto later_ending = [&](std::size_t bar) {
        for (std::size_t at = bar + 1; at <= last; ++at) {
            const OutlineBar& now = outline.bars[at];
            if (now.endings != 0) return at;
            if (now.repeat_opens || now.begins_part) break;
        }
        return bar;
    };
    for (std::size_t bar = 0; bar <= last; ++bar) {
        if (outline.bars[bar].endings != 0)
            for (std::size_t later = later_ending(bar); later != bar; later = later_ending(bar)) bar = later;
        if (!outline.bars[bar].is_pickup) bars.push_back(static_cast<std::uint32_t>(bar));
    }
    return bars;
}

}  // namespace

std::vector<std::uint32_t> play_bars(const Outline& outline) {
    std::vector<std::uint32_t> played = PlayWalk(outline).play();
    const std::vector<std::uint32_t> back = bars_back(outline);
    played.insert(played.end(), back.begin(), back.end());
    trim(outline, played);
    return played;
}

std::vector<std::uint32_t> play_bars_once(const Outline& outline) {
    std::vector<std::uint32_t> bars = PlayWalk(outline).play();
    trim(outline, bars);
    if (bars.size() > kMostBarsFolded) return bars;
    // Bars with the same notes get the same number, so that most comparisons are of two numbers.
    std::vector<std::uint32_t> kinds(bars.size());
    const auto number = [&] {
        kinds.resize(bars.size());
        for (std::size_t bar = 0; bar < bars.size(); ++bar) {
            const auto same =
                std::find_if(bars.begin(), bars.begin() + static_cast<std::ptrdiff_t>(bar),
                             [&](std::uint32_t earlier) { return are_same(outline, earlier, bars[bar], false); });
            kinds[bar] = static_cast<std::uint32_t>(same - bars.begin());
        }
    };
    number();
    for (std::size_t length = bars.size() / 2; length >= kShortestBlock; --length) {
        for (std::size_t at = 0; at + 2 * length <= bars.size();) {
            const auto from = kinds.begin() + static_cast<std::ptrdiff_t>(at);
            const auto again = from + static_cast<std::ptrdiff_t>(length);
            const bool follows = std::equal(from, again - 1, again) &&
                                 are_same(outline, bars[at + length - 1], bars[at + 2 * length - 1], true);
            if (!follows) {
                ++at;
                continue;
            }
            bars.erase(bars.begin() + static_cast<std::ptrdiff_t>(at),
                       bars.begin() + static_cast<std::ptrdiff_t>(at + length));
            kinds.erase(from, again);
        }
    }
    return bars;
}

std::uint32_t usual_bar_length(const Outline& outline, const std::vector<std::uint32_t>& bars) {
    std::map<std::uint32_t, std::size_t> counts;
    for (const std::uint32_t bar : bars) ++counts[outline.bars[bar].length];
    const auto usual = std::max_element(counts.begin(), counts.end(), [](const auto& a, const auto& b) {
        return a.second != b.second ? a.second < b.second : a.first < b.first;
    });
    return usual == counts.end() ? 0 : usual->first;
}

}  // namespace analysis
