#include "report/writers/fingered_bars.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "base/utf8.h"

namespace report {

namespace {

std::string padded(const std::string& text, std::size_t columns) {
    const std::size_t width = base::display_width(text);
    return text + std::string(width < columns ? columns - width : 0, ' ');
}

// Columns of the widest note or way.
std::size_t width_of(const FingeredBar& bar) {
    std::size_t width = 1;
    for (const std::string& note : bar.notes) width = std::max(width, note.size());
    for (const std::string& way : bar.ways) width = std::max(width, base::display_width(way));
    return width;
}

// Bars side by side; a bar too long for the page goes on below.
class BarLines {
public:
    BarLines(bool has_air, std::size_t page_columns) : lines_(has_air ? 4 : 3), page_columns_(page_columns) {}

    void add(const FingeredBar& bar) {
        const std::size_t width = width_of(bar);
        const std::size_t notes_across = std::max<std::size_t>(1, (page_columns_ - kGap) / (width + 1));
        for (std::size_t from = 0; from < bar.notes.size(); from += notes_across)
            add_part(bar, width, from, std::min(from + notes_across, bar.notes.size()));
    }

    std::string text() && {
        print();
        while (text_.ends_with("\n\n")) text_.pop_back();
        return std::move(text_);
    }

private:
    static constexpr std::size_t kGap = 2;

    void add_part(const FingeredBar& bar, std::size_t note_width, std::size_t from, std::size_t to) {
        const std::string name = from == 0 ? bar.name : "";
        const std::size_t width = std::max((to - from) * (note_width + 1) + kGap, name.size() + kGap + 1);
        if (columns_ > 0 && columns_ + width > page_columns_) print();
        std::vector<std::string> part(lines_.size());
        part[0] = name;
        for (std::size_t at = from; at < to; ++at) {
            part[1] += padded(bar.notes[at], note_width + 1);
            part[2] += padded(bar.ways[at], note_width + 1);
            if (part.size() > 3) part[3] += padded(std::string(1, bar.air[at]), note_width + 1);
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

std::string draw_fingered_bars(const FingeredBars& bars, std::size_t columns) {
    BarLines lines(bars.has_air, columns);
    for (const FingeredBar& bar : bars.bars) lines.add(bar);
    return std::move(lines).text();
}

}  // namespace report
