#include "report/words/hands_line.h"

#include <unordered_map>
#include <utility>
#include <vector>

#include "music/pitch.h"
#include "report/words/way_label.h"

namespace report {

namespace {

constexpr std::string_view kMissing = "--";

struct NumberedBar {
    int number = 0;
    bool is_pickup = false;
    std::size_t index = 0;  // into Melody::bars
    FingeredBar fingered;
};

std::vector<NumberedBar> bars_of(const hands::CheapestWay& way, const instruments::Instrument& instrument, int fifths) {
    std::vector<NumberedBar> bars;
    for (const hands::Stroke& stroke : way.strokes) {
        if (bars.empty() || bars.back().index != stroke.note.bar_index) {
            // A pick-up inside the tune has the number of the bar it completes.
            const bool is_pickup = stroke.note.bar == (bars.empty() ? 0 : bars.back().number);
            bars.push_back({stroke.note.bar, is_pickup, stroke.note.bar_index, {}});
            bars.back().fingered.name = is_pickup ? "pick-up" : "bar " + std::to_string(stroke.note.bar);
        }
        FingeredBar& bar = bars.back().fingered;
        bar.notes.push_back(music::to_string(music::spell_midi(stroke.note.midi, fifths)));
        bar.ways.push_back(stroke.way ? way_label(instrument, *stroke.way) : std::string(kMissing));
        bar.air += stroke.way ? direction_letter(stroke.way->direction) : ' ';
    }
    return bars;
}

// All that makes two bars the same under the hand.
std::string likeness_of(const FingeredBar& bar) {
    std::string words = bar.air;
    for (const auto* cells : {&bar.notes, &bar.ways})
        for (const std::string& cell : *cells) words += '\n' + cell;
    return words;
}

}  // namespace

void describe_hands_line(const hands::CheapestWay& way, const instruments::Instrument& instrument, int fifths,
                         Document& document) {
    FingeredBars line;
    std::string like_others;
    line.has_air = instrument.is_bisonoric();
    std::unordered_map<std::string, int> first_with;  // number of the first bar that is played so
    for (NumberedBar& bar : bars_of(way, instrument, fifths)) {
        if (!bar.is_pickup) {
            const auto [first, is_new] = first_with.try_emplace(likeness_of(bar.fingered), bar.number);
            if (!is_new) {
                like_others += (like_others.empty() ? "" : ", ") + std::to_string(bar.number) + " as " +
                               std::to_string(first->second);
                continue;
            }
        }
        line.bars.push_back(std::move(bar.fingered));
    }
    document.blocks.emplace_back(std::move(line));
    if (!like_others.empty())
        document.blocks.emplace_back(Paragraph{"Played like an earlier bar: " + like_others + "."});
}

}  // namespace report
