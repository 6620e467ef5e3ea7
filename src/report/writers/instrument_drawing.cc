#include "report/writers/instrument_drawing.h"

#include <algorithm>
#include <functional>
#include <map>
#include <vector>

#include "base/utf8.h"
#include "music/pitch.h"
#include "report/words/way_label.h"

namespace report {

using instruments::Direction;
using instruments::Instrument;
using instruments::InstrumentNote;
using instruments::Way;

namespace {

constexpr std::string_view kHoleRow = "hole ";

// Labels down the side, heads along the top, notes in between.
struct Grid {
    std::vector<std::string> heads;
    std::vector<std::string> labels;
    std::vector<std::vector<std::string>> cells;  // a line for each label, as long as `heads`

    std::size_t column(const std::string& head) { return place(heads, head); }
    std::size_t line(const std::string& label) { return place(labels, label); }

    void put(std::size_t line, std::size_t column, const std::string& note) {
        cells.resize(labels.size());
        for (auto& each : cells) each.resize(heads.size());
        std::string& cell = cells[line][column];
        cell += (cell.empty() ? "" : "/") + note;
    }

private:
    static std::size_t place(std::vector<std::string>& words, const std::string& word) {
        const auto found = std::find(words.begin(), words.end(), word);
        if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
        words.push_back(word);
        return words.size() - 1;
    }
};

std::string padded_cell(const std::string& text, std::size_t columns) {
    const std::size_t width = base::display_width(text);
    return text + std::string(columns > width ? columns - width : 0, ' ');
}

std::string without_tail(std::string line) {
    line.erase(line.find_last_not_of(' ') + 1);
    return line + "\n";
}

// As many columns side by side as there is room for, the rest below.
std::string print(const Grid& grid, std::size_t columns) {
    std::size_t label_width = 0;
    for (const std::string& label : grid.labels) label_width = std::max(label_width, base::display_width(label) + 2);
    std::size_t width = 0;
    for (const std::string& head : grid.heads) width = std::max(width, base::display_width(head) + 1);
    for (const auto& line : grid.cells)
        for (const std::string& cell : line) width = std::max(width, cell.size() + 1);
    const std::size_t across = label_width < columns ? std::max<std::size_t>(1, (columns - label_width) / width) : 1;
    std::string text;
    for (std::size_t from = 0; from < grid.heads.size(); from += across) {
        const std::size_t to = std::min(from + across, grid.heads.size());
        if (from > 0) text += "\n";
        std::string line = padded_cell("", label_width);
        for (std::size_t at = from; at < to; ++at) line += padded_cell(grid.heads[at], width);
        text += without_tail(line);
        for (std::size_t row = 0; row < grid.labels.size(); ++row) {
            line = padded_cell(grid.labels[row], label_width);
            for (std::size_t at = from; at < to; ++at) line += padded_cell(grid.cells[row][at], width);
            text += without_tail(line);
        }
    }
    return text;
}

class LetterDrawing {
public:
    LetterDrawing(const Instrument& instrument, const music::NoteSet& marked, std::size_t columns)
        : instrument_(instrument), marked_(marked), columns_(columns) {}

    std::string text() const {
        if (instrument_.rows.empty()) return fingerings();
        if (every_row_is_a_hole()) return holes_blown();
        if (instrument_.is_bisonoric()) return rows_of_two_ways();
        return instrument_.has_levers() ? strings_with_levers() : rows_of_one_way();
    }

private:
    std::string name(const InstrumentNote& note) const {
        const std::string plain = music::to_string(music::spell_midi(note.written, 1));
        return marked_.has(note.written) ? "[" + plain + "]" : plain;
    }

    void each_way(const std::function<void(const InstrumentNote&, const Way&)>& visit) const {
        for (const InstrumentNote& note : instrument_.notes)
            for (const Way& way : note.ways) visit(note, way);
    }

    bool every_row_is_a_hole() const {
        return std::all_of(instrument_.rows.begin(), instrument_.rows.end(),
                           [](const std::string& row) { return row.starts_with(kHoleRow); });
    }

    // Positions of a row from the chin, the nut or the lowest button on: by how far they lie above the lowest note of
    // their row, which is in order on strings and on buttons numbered from 1 alike.
    std::vector<std::string> positions() const {
        std::map<std::string, int> lowest;  // of a row
        each_way([&](const InstrumentNote& note, const Way& way) {
            const auto [entry, is_new] = lowest.try_emplace(way.row, note.written);
            entry->second = std::min(entry->second, note.written);
        });
        std::map<std::string, int> above;
        bool are_numbers = true;
        each_way([&](const InstrumentNote& note, const Way& way) {
            const int offset = note.written - lowest[way.row];
            const auto [entry, is_new] = above.try_emplace(way.position, offset);
            entry->second = std::min(entry->second, offset);
            are_numbers = are_numbers && !way.position.empty() &&
                          way.position.find_first_not_of("0123456789") == std::string::npos;
        });
        std::vector<std::string> order;
        for (const auto& [position, offset] : above) order.push_back(position);
        std::sort(order.begin(), order.end(), [&](const std::string& a, const std::string& b) {
            return are_numbers ? std::pair(a.size(), a) < std::pair(b.size(), b)
                               : std::pair(above[a], a) < std::pair(above[b], b);
        });
        return order;
    }

    std::string rows_of_two_ways() const {
        std::string text;
        for (const std::string& row : instrument_.rows) {
            Grid grid;
            for (const std::string& position : positions()) grid.column(position);
            grid.line("  press");
            grid.line("  draw");
            each_way([&](const InstrumentNote& note, const Way& way) {
                if (way.row == row)
                    grid.put(way.direction == Direction::draw ? 1 : 0, grid.column(way.position), name(note));
            });
            if (grid.cells.empty()) continue;
            text += (text.empty() ? "" : "\n") + row + "\n" + print(grid, columns_);
        }
        return text;
    }

    std::string rows_of_one_way() const {
        Grid grid;
        for (const std::string& position : positions()) grid.column(position);
        for (const std::string& row : instrument_.rows) grid.line(row);
        each_way([&](const InstrumentNote& note, const Way& way) {
            grid.put(grid.line(way.row), grid.column(way.position), name(note));
        });
        return print(grid, columns_);
    }

    std::string strings_with_levers() const {
        Grid grid;
        grid.line("lever up");
        grid.line("lever down");
        for (const std::string& row : instrument_.rows) grid.column(row);
        each_way([&](const InstrumentNote& note, const Way& way) {
            grid.put(way.position == "up" ? 0 : 1, grid.column(way.row), name(note));
        });
        return print(grid, columns_);
    }

    std::string holes_blown() const {
        Grid grid;
        for (const std::string& row : instrument_.rows) grid.column(row.substr(kHoleRow.size()));
        for (const char* label : {"blow", "blow bent", "draw", "draw bent"}) grid.line(label);
        each_way([&](const InstrumentNote& note, const Way& way) {
            const std::size_t bent = way.technique.find("bend") != std::string::npos ? 1 : 0;
            grid.put((way.direction == Direction::draw ? 2 : 0) + bent, grid.column(way.row.substr(kHoleRow.size())),
                     name(note));
        });
        return print(grid, columns_);
    }

    // From the lowest note up, in columns read downwards.
    std::string fingerings() const {
        std::vector<std::string> entries;
        std::size_t width = 0;
        std::size_t note_width = 0;
        for (const InstrumentNote& note : instrument_.notes) note_width = std::max(note_width, name(note).size() + 1);
        each_way([&](const InstrumentNote& note, const Way& way) {
            const bool is_first = &way == &note.ways.front();
            const bool is_plain = way.technique == "holes" || way.technique == "key";
            entries.push_back(padded_cell(is_first ? name(note) : "", note_width) + way.fingering +
                              (is_plain ? "" : " " + way.technique));
            width = std::max(width, entries.back().size() + 3);
        });
        const std::size_t across = std::max<std::size_t>(1, (columns_ + 3) / width);
        const std::size_t down = (entries.size() + across - 1) / across;
        std::string text;
        for (std::size_t line = 0; line < down; ++line) {
            std::string words;
            for (std::size_t at = line; at < entries.size(); at += down) words += padded_cell(entries[at], width);
            text += without_tail(words);
        }
        return text;
    }

    const Instrument& instrument_;
    const music::NoteSet& marked_;
    std::size_t columns_;
};

}  // namespace

std::string draw_instrument(const Instrument& instrument, const music::NoteSet& marked, std::size_t columns) {
    return can_be_seen(instrument) ? LetterDrawing(instrument, marked, columns).text() : std::string();
}

}  // namespace report
