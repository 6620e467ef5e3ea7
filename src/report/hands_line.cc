#include "report/hands_line.h"

#include <algorithm>
#include <vector>

#include "music/pitch.h"
#include "report/way_label.h"

namespace report {

namespace {

constexpr std::string_view kMissing = "--";

// Equally long lines of text: notes, ways, and the direction of the air where there is one.
struct Bar {
    int number = 0;
    bool is_pickup = false;
    std::size_t index = 0;  // into Melody::bars
    std::vector<std::string> notes, ways;
    std::string air;  // a letter a note
    std::size_t widest() const {
        std::size_t width = 1;
        for (const auto* cells : {&notes, &ways})
            for (const std::string& cell : *cells) width = std::max(width, cell.size());
        return width;
    }
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
                            {}});
        Bar& bar = bars.back();
        bar.notes.push_back(music::to_string(music::spell_midi(stroke.note.midi, fifths)));
        bar.ways.push_back(stroke.way ? way_label(instrument, *stroke.way) : std::string(kMissing));
        bar.air += stroke.way ? direction_letter(stroke.way->direction) : ' ';
    }
    return bars;
}

// A pick-up inside the tune has the number of the bar it completes.
std::string name_of(const Bar& bar) { return bar.is_pickup ? "pick-up" : "bar " + std::to_string(bar.number); }

// Bars side by side.
class Block {
public:
    explicit Block(bool has_air) : lines_(has_air ? 4 : 3) {}

    bool is_empty() const { return lines_[0].empty(); }
    std::size_t columns() const { return lines_[0].size(); }

    static std::size_t columns_of(const Bar& bar) {
        return std::max(bar.notes.size() * (bar.widest() + 1) + 2, name_of(bar).size() + 3);
    }

    void add(const Bar& bar) {
        const std::size_t end = columns() + columns_of(bar);
        lines_[0] += name_of(bar);
        for (std::size_t at = 0; at < bar.notes.size(); ++at) {
            put(lines_[1], bar.notes[at], bar.widest());
            put(lines_[2], bar.ways[at], bar.widest());
            if (lines_.size() > 3) put(lines_[3], std::string(1, bar.air[at]), bar.widest());
        }
        for (std::string& line : lines_) line.resize(end, ' ');
    }

    void print_to(std::string& text) {
        for (std::string& line : lines_) {
            line.erase(line.find_last_not_of(' ') + 1);
            text += line + "\n";
            line.clear();
        }
        text += "\n";
    }

private:
    static void put(std::string& line, const std::string& cell, std::size_t width) {
        line += cell;
        line.append(width + 1 - cell.size(), ' ');
    }

    std::vector<std::string> lines_;
};

}  // namespace

HandsLine hands_line(const hands::CheapestWay& way, const instruments::Instrument& instrument, int fifths,
                     std::size_t columns) {
    HandsLine line;
    std::string& text = line.picture;
    std::string& repeated = line.like_others;
    Block block(instrument.is_bisonoric());
    const std::vector<Bar> bars = bars_of(way, instrument, fifths);
    for (std::size_t at = 0; at < bars.size(); ++at) {
        const auto as_before =
            std::find_if(bars.begin(), bars.begin() + static_cast<std::ptrdiff_t>(at), [&](const Bar& bar) {
                return !bar.is_pickup && bar.notes == bars[at].notes && bar.ways == bars[at].ways &&
                       bar.air == bars[at].air;
            });
        if (as_before != bars.begin() + static_cast<std::ptrdiff_t>(at) && !bars[at].is_pickup) {
            repeated += (repeated.empty() ? "" : ", ") + std::to_string(bars[at].number) + " as " +
                        std::to_string(as_before->number);
            continue;
        }
        if (!block.is_empty() && block.columns() + Block::columns_of(bars[at]) > columns) block.print_to(text);
        block.add(bars[at]);
    }
    if (!block.is_empty()) block.print_to(text);
    while (text.ends_with("\n\n")) text.pop_back();
    return line;
}

}  // namespace report
