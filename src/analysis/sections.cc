// One walk over the bars: a sign begins a section, or belongs to the one before. Tested by sections_test.cc.
#include "analysis/sections.h"

#include <optional>
#include <string>
#include <utility>

namespace analysis {

namespace {

using music::Bar;
using music::Melody;

// An ending that no sign closes ends where the first one does when this many bars more follow. Source: house choice;
// half a part.
constexpr std::uint32_t kMoreThanAnEnding = 4;

struct Mark {
    std::uint32_t bar = 0;
    const std::string* label = nullptr;
};

// In the order of their bars; of several on one bar the last counts.
std::vector<Mark> marks_of(const Melody& melody) {
    std::vector<Mark> marks;
    for (const music::PartMark& part : melody.parts) {
        if (part.before_sound >= melody.sounds.size() || part.label.empty()) continue;
        std::uint32_t bar = melody.sounds[part.before_sound].bar;
        if (melody.bars[bar].first_sound < part.before_sound) ++bar;
        if (bar >= melody.bars.size()) continue;
        if (!marks.empty() && marks.back().bar == bar)
            marks.back().label = &part.label;
        else
            marks.push_back({bar, &part.label});
    }
    return marks;
}

class SectionWalk {
public:
    explicit SectionWalk(const Melody& melody) : melody_(melody) {}

    std::vector<Section> find() {
        const std::vector<Mark> marks = marks_of(melody_);
        auto mark = marks.begin();
        auto end = static_cast<std::uint32_t>(melody_.bars.size());
        while (end > 0 && is_empty_bar(melody_.bars[end - 1])) --end;
        for (std::uint32_t bar = 0; bar < end; ++bar) {
            const bool is_marked = mark != marks.end() && mark->bar == bar;
            if (bar == 0 || is_marked || begins_part(bar)) begin(bar);
            Section& section = found_.back();
            if (is_marked) section.part.label = *(mark++)->label;
            take(section, bar);
        }
        finish_last(end);
        mark_repeats();
        return std::move(found_);
    }

private:
    bool begins_part(std::uint32_t index) const {
        const Bar& bar = melody_.bars[index];
        const Bar& before = melody_.bars[index - 1];
        if (bar.repeat_opens) return true;
        return bar.ending.empty() && (before.repeat_closes || before.thick_after);
    }

    void begin(std::uint32_t bar) {
        if (!found_.empty() && leads_in(found_.back(), bar)) return;  // its pick-up stands before the sign
        if (!found_.empty()) finish_last(bar);
        Section& section = found_.emplace_back();
        section.part.bars_begin = bar;
        section.has_sign = bar > 0;
    }

    bool leads_in(const Section& section, std::uint32_t bar) const {
        const std::uint32_t first = section.part.bars_begin;
        return bar == first + 1 && is_short_bar(melody_.bars[first]) && melody_.bars[first].ending.empty() &&
               !section.closes;
    }

    void take(Section& section, std::uint32_t index) {
        const Bar& bar = melody_.bars[index];
        section.opens = section.opens || bar.repeat_opens;
        section.closes = section.closes || bar.repeat_closes;
        section.has_sign = section.has_sign || bar.repeat_opens || bar.repeat_closes || !bar.ending.empty() ||
                           !section.part.label.empty();
        if (bar.ending.empty()) return;
        if (endings_ == 0) section.part.first_ending = index;
        if (endings_ == 1) second_ending_ = index;
        section.part.last_ending = index;
        ++endings_;
    }

    // Ends the last section before the bar `end`.
    void finish_last(std::uint32_t end) {
        const std::uint32_t endings = std::exchange(endings_, 0);
        if (found_.empty()) return;
        tune::Part& part = found_.back().part;
        part.bars_end = end;
        if (endings == 0) part.first_ending = part.last_ending = end;
        if (endings < 2) return;
        found_.back().closes = true;
        const std::uint32_t usual_end = part.last_ending + (second_ending_ - part.first_ending);
        if (end < usual_end + kMoreThanAnEnding) return;
        part.bars_end = usual_end;
        Section& rest = found_.emplace_back();
        rest.has_sign = true;
        rest.part.bars_begin = usual_end;
        rest.part.bars_end = rest.part.first_ending = rest.part.last_ending = end;
        rest.closes = melody_.bars[end - 1].repeat_closes;
    }

    // A `:|` repeats everything from the last `|:` that waits for one, or its own section only.
    void mark_repeats() {
        std::optional<std::size_t> open;
        for (std::size_t index = 0; index < found_.size(); ++index) {
            if (found_[index].opens) open = index;
            if (!found_[index].closes) continue;
            const std::size_t first = open.value_or(index);
            for (std::size_t repeated = first; repeated <= index; ++repeated) found_[repeated].part.is_repeated = true;
            found_[index].part.repeat_from = static_cast<std::uint32_t>(first);
            open.reset();
        }
    }

    const Melody& melody_;
    std::vector<Section> found_;
    std::uint32_t endings_ = 0;  // of the last section
    std::uint32_t second_ending_ = 0;
};

}  // namespace

bool is_empty_bar(const Bar& bar) { return bar.length && bar.length->numerator() == 0; }

bool is_short_bar(const Bar& bar) { return !bar.meter.is_free() && bar.length && *bar.length < bar.meter.bar_length(); }

std::vector<Section> find_sections(const Melody& melody) { return SectionWalk(melody).find(); }

}  // namespace analysis
