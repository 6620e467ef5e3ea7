// Tested by part_lengths_test.cc.
#include "analysis/part_lengths.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/repeat_marks.h"

namespace analysis {

namespace {

// Tokens of rhythm_words.h.
constexpr std::array<std::string_view, 12> kEven{"reel",        "jig",   "slip jig", "single jig", "hop jig",
                                                 "slide",       "polka", "hornpipe", "barndance",  "highland fling",
                                                 "schottische", "waltz"};

// In bars of its own meter.
double share_of_bar(const music::Bar& bar) {
    const music::Duration due = bar.meter.bar_length();
    return static_cast<double>(bar.length->numerator()) * static_cast<double>(due.denominator()) /
           (static_cast<double>(bar.length->denominator()) * static_cast<double>(due.numerator()));
}

struct Part {
    std::uint32_t first_bar = 0;
    double bars = 0;
};

// To the nearest; a half, such as a pick-up that no last bar makes room for, is left out.
int whole_bars(double bars) { return static_cast<int>(std::ceil(bars - 0.5 - 1e-9)); }

// Parts between two repeat signs.
void append_section(std::vector<PartLength>& lengths, std::vector<Part>& section) {
    double whole = 0;
    for (const Part& part : section) whole += part.bars;
    for (const Part& part : section)
        if (part.bars > 0) lengths.push_back({part.first_bar, whole_bars(part.bars), whole_bars(whole)});
    section.clear();
}

}  // namespace

std::vector<PartLength> measure_parts(const music::Melody& melody) {
    std::vector<PartLength> lengths;
    std::vector<Part> section;
    bool in_later_ending = false;
    for (std::uint32_t index = 0; index < melody.bars.size(); ++index) {
        const music::Bar& bar = melody.bars[index];
        if (bar.meter.is_free() || !bar.length) return {};
        const music::Bar* before = index > 0 ? &melody.bars[index - 1] : nullptr;
        const bool goes_on = !bar.ending.empty() && !is_first_ending(bar.ending);
        const bool ends_later_ending = in_later_ending && before->thick_after;
        const bool repeats_part = before == nullptr || before->repeat_closes || bar.repeat_opens || ends_later_ending;
        if (!goes_on && repeats_part) append_section(lengths, section);
        if (section.empty() || (!goes_on && before->thick_after)) section.push_back({index, 0});
        if (!bar.ending.empty())
            in_later_ending = goes_on;
        else if (before != nullptr && (before->thick_after || repeats_part))
            in_later_ending = false;
        if (!in_later_ending) section.back().bars += share_of_bar(bar);
    }
    append_section(lengths, section);
    return lengths;
}

bool has_even_parts(std::string_view rhythm) noexcept {
    return std::find(kEven.begin(), kEven.end(), rhythm) != kEven.end();
}

}  // namespace analysis
