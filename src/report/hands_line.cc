#include "report/hands_line.h"

#include <algorithm>
#include <unordered_map>
#include <utility>
#include <vector>

#include "base/utf8.h"
#include "music/pitch.h"
#include "report/way_label.h"

namespace report {

namespace {

constexpr std::string_view kMissing = "--";
constexpr std::size_t kWidest = 78;  // Source: house choice: a page of 80 with a little room

// Notes, ways, and the direction of the air where there is one; equally many of each.
struct Bar {
    int number = 0;
    bool is_pickup = false;
    std::size_t index = 0;  // into Melody::bars
    std::vector<std::string> notes, ways;
    std::string air;        // a letter a note
    std::size_t width = 1;  // columns of the widest note or way
};

std::vector<Bar> bars_of(const hands::CheapestWay& way, const instruments::Instrument& instrument, int fifths) {
    std::vector<Bar> bars;
    for (const hands::Stroke& stroke : way.strokes) {
        if (bars.empty() || bars.back().index != stroke.note.bar_index)
            bars.push_back({stroke.note.bar,
                            stroke.note.bar == (bars.empty() ? 0 : bars.back().number),
                            stroke.note.bar_index,
                            {},
                            {},
                            {},
                            1});
        Bar& bar = bars.back();
        bar.notes.push_back(music::to_string(music::spell_midi(stroke.note.midi, fifths)));
        bar.ways.push_back(stroke.way ? way_label(instrument, *stroke.way) : std::string(kMissing));
        bar.width = std::max({bar.width, bar.notes.back().size(), base::display_width(bar.ways.back())});
        bar.air += stroke.way ? direction_letter(stroke.way->direction) : ' ';
    }
    return bars;
}

// A pick-up inside the tune has the number of the bar it completes.
std::string name_of(const Bar& bar) { return bar.is_pickup ? "pick-up" : "bar " + std::to_string(bar.number); }

// All that makes two bars the same under the hand.
std::string likeness_of(const Bar& bar) {
    std::string words = bar.air;
    for (const auto* cells : {&bar.notes, &bar.ways})
        for (const std::string& cell : *cells) words += '\n' + cell;
    return words;
}

std::string padded(const std::string& text, std::size_t columns) {
    const std::size_t width = base::display_width(text);
    return text + std::string(width < columns ? columns - width : 0, ' ');
}

// Bars side by side; a bar too long for the page goes on below.
class Blocks {
public:
    Blocks(bool has_air, std::size_t page_columns) : lines_(has_air ? 4 : 3), page_columns_(page_columns) {}

    void add(const Bar& bar) {
        const std::size_t notes_across = std::max<std::size_t>(1, (page_columns_ - kGap) / (bar.width + 1));
        for (std::size_t from = 0; from < bar.notes.size(); from += notes_across)
            add_part(bar, from, std::min(from + notes_across, bar.notes.size()));
    }

    std::string text() && {
        print();
        while (text_.ends_with("\n\n")) text_.pop_back();
        return std::move(text_);
    }

private:
    static constexpr std::size_t kGap = 2;

    void add_part(const Bar& bar, std::size_t from, std::size_t to) {
        const std::string name = from == 0 ? name_of(bar) : "";
        const std::size_t width = std::max((to - from) * (bar.width + 1) + kGap, name.size() + kGap + 1);
        if (columns_ > 0 && columns_ + width > page_columns_) print();
        std::vector<std::string> part(lines_.size());
        part[0] = name;
        for (std::size_t at = from; at < to; ++at) {
            part[1] += padded(bar.notes[at], bar.width + 1);
            part[2] += padded(bar.ways[at], bar.width + 1);
            if (part.size() > 3) part[3] += padded(std::string(1, bar.air[at]), bar.width + 1);
        }
        for (std::size_t line = 0; line < lines_.size(); ++line) lines_[line] += padded(part[line], width);
        columns_ += width;
    }

    void print() {
        if (columns_ == 0) return;
        for (std::string& line : lines_) {
            line.erase(line.find_last_not_of(' ') + 1);
            if (!line.empty()) text_ += line + "\n";  // the rest of a long bar has no name
            line.clear();
        }
        text_ += "\n";
        columns_ = 0;
    }

    std::vector<std::string> lines_;
    std::size_t page_columns_;
    std::size_t columns_ = 0;
    std::string text_;
};

}  // namespace

HandsLine hands_line(const hands::CheapestWay& way, const instruments::Instrument& instrument, int fifths,
                     std::size_t columns) {
    HandsLine line;
    std::string& repeated = line.like_others;
    Blocks blocks(instrument.is_bisonoric(), columns);
    std::unordered_map<std::string, int> first_with;  // number of the first bar that is played so
    for (const Bar& bar : bars_of(way, instrument, fifths)) {
        if (!bar.is_pickup) {
            const auto [first, is_new] = first_with.try_emplace(likeness_of(bar), bar.number);
            if (!is_new) {
                repeated += (repeated.empty() ? "" : ", ") + std::to_string(bar.number) + " as " +
                            std::to_string(first->second);
                continue;
            }
        }
        blocks.add(bar);
    }
    line.picture = std::move(blocks).text();
    return line;
}

void describe_hands_line(const hands::CheapestWay& way, const instruments::Instrument& instrument, int fifths,
                         Document& document) {
    const std::string like_others = hands_line(way, instrument, fifths, kWidest).like_others;
    document.blocks.emplace_back(Picture{[way, instrument, fifths](std::size_t columns) {
        return hands_line(way, instrument, fifths, std::min(columns, kWidest)).picture;
    }});
    if (!like_others.empty())
        document.blocks.emplace_back(Paragraph{"Played like an earlier bar: " + like_others + "."});
}

}  // namespace report
