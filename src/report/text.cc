#include "report/text.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "base/utf8.h"

namespace report {

namespace {

constexpr std::string_view kBold = "\x1b[1m";
constexpr std::string_view kPlain = "\x1b[0m";
constexpr std::size_t kGap = 2;               // blanks between columns
constexpr std::size_t kNarrowestWrapped = 8;  // Source: house choice: narrower, hardly a word stays whole
constexpr std::size_t kNarrowestCut = 10;     // Source: house choice: narrower, hardly a title is known again
constexpr std::size_t kWidestPicture = 80;    // Source: house choice: a hand is found again on a short line

std::string text_of(const Cell& cell) {
    if (const auto* text = std::get_if<std::string>(&cell)) return base::printable(*text);
    if (const auto* number = std::get_if<std::int64_t>(&cell)) return std::to_string(*number);
    if (const auto* share = std::get_if<Share>(&cell)) {
        const auto tenths = static_cast<long>(std::lround(share->value * 1000));
        return std::to_string(tenths / 10) + "." + std::to_string(tenths % 10) + " %";
    }
    return "-";
}

bool is_number(const Cell& cell) {
    return std::holds_alternative<std::int64_t>(cell) || std::holds_alternative<Share>(cell);
}

// Where the letter that begins at `at` ends.
std::size_t end_of_letter(std::string_view text, std::size_t at) {
    std::size_t end = at + 1;
    while (end < text.size() && base::is_continuation_byte(text[end])) ++end;
    return end;
}

// At most `width` columns wide; what is cut ends in an ellipsis.
std::string cut(const std::string& text, std::size_t width) {
    if (base::display_width(text) <= width) return text;
    std::string kept;
    std::size_t used = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = end_of_letter(text, at);
        const std::size_t step = base::display_width(std::string_view(text).substr(at, end - at));
        if (used + step + 1 > width) break;
        kept.append(text, at, end - at);
        used += step;
        at = end;
    }
    return kept + "\u2026";
}

// Lines of at most `width` columns, one at least. They end at blanks, which are left out there; a longer word is broken
// between letters, and a letter wider than the column stands alone.
std::vector<std::string> broken(std::string_view text, std::size_t width) {
    std::vector<std::string> lines;
    for (;;) {
        std::size_t end = 0;                              // of what fits
        std::size_t last_blank = std::string_view::npos;  // the one the line can end before
        bool fits = true;
        for (std::size_t used = 0; end < text.size();) {
            const std::size_t next = end_of_letter(text, end);
            if (text[end] == ' ' && end > 0 && text[end - 1] != ' ') last_blank = end;
            used += base::display_width(text.substr(end, next - end));
            fits = used <= width;
            if (!fits) break;
            end = next;
        }
        if (fits) break;
        if (last_blank != std::string_view::npos) end = last_blank;
        if (end == 0) end = end_of_letter(text, 0);
        lines.emplace_back(text.substr(0, end));
        text.remove_prefix(end);
        while (text.starts_with(' ')) text.remove_prefix(1);
    }
    if (!text.empty() || lines.empty()) lines.emplace_back(text);
    return lines;
}

std::size_t longest_word(std::string_view text) {
    std::size_t longest = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        longest = std::max(longest, base::display_width(text.substr(0, end)));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return longest;
}

// A table as it is printed: its texts, and which columns hold numbers.
struct Shown {
    const Table& table;
    std::vector<std::string> titles;
    std::vector<std::vector<std::string>> texts;
    std::vector<bool> is_number;

    explicit Shown(const Table& of) : table(of), is_number(of.columns.size(), false) {
        for (const Column& column : table.columns) titles.push_back(base::printable(column.title));
        for (const auto& row : table.rows) {
            auto& shown = texts.emplace_back();
            for (std::size_t column = 0; column < row.size(); ++column) {
                shown.push_back(text_of(row[column]));
                if (report::is_number(row[column])) is_number[column] = true;
            }
        }
    }

    std::size_t widest(std::size_t column, std::size_t (*width)(std::string_view)) const {
        std::size_t widest = 0;
        for (const auto& row : texts) widest = std::max(widest, width(row[column]));
        return widest;
    }
};

bool is_cut(const Column& column) { return column.may_shrink && !column.wraps; }

// What a table too wide for the page tries, one after the other.
enum class Squeeze { what_may_shrink, wrap_all, cut_more };

// To how many columns of the page a column of a table may shrink. Numbers stay whole.
std::size_t least_width(const Shown& shown, std::size_t at, Squeeze squeeze, std::size_t whole) {
    const Column& column = shown.table.columns[at];
    const std::size_t least = column.may_shrink ? std::min(column.narrowest, whole) : whole;
    if (squeeze == Squeeze::what_may_shrink) return least;
    if (is_cut(column)) return squeeze == Squeeze::cut_more ? std::min(kNarrowestCut, least) : least;
    if (column.wraps) return std::min(kNarrowestWrapped, least);
    const std::size_t cells =
        shown.is_number[at] ? shown.widest(at, base::display_width) : shown.widest(at, longest_word);
    return std::min(std::max(longest_word(shown.titles[at]), cells), least);
}

// Nothing where the page is too narrow.
std::optional<std::vector<std::size_t>> widths_of(const Shown& shown, std::size_t page) {
    const std::size_t columns = shown.table.columns.size();
    std::vector<std::size_t> widths;
    std::size_t whole = 0;
    for (std::size_t at = 0; at < columns; ++at) {
        widths.push_back(std::max(base::display_width(shown.titles[at]), shown.widest(at, base::display_width)));
        whole += widths.back() + (at > 0 ? kGap : 0);
    }
    for (const Squeeze squeeze : {Squeeze::what_may_shrink, Squeeze::wrap_all, Squeeze::cut_more}) {
        if (whole <= page) break;
        std::vector<std::size_t> least;
        for (std::size_t at = 0; at < columns; ++at) least.push_back(least_width(shown, at, squeeze, widths[at]));
        while (whole > page) {  // the widest column that may shrink gives first
            std::size_t widest = columns;
            for (std::size_t at = 0; at < columns; ++at)
                if (widths[at] > least[at] && (widest == columns || widths[at] > widths[widest])) widest = at;
            if (widest == columns) break;
            --widths[widest];
            --whole;
        }
    }
    return whole <= page ? std::optional(widths) : std::nullopt;
}

void append_row(std::string& out, const Shown& shown, const std::vector<std::string>& row,
                const std::vector<std::size_t>& widths) {
    std::vector<std::vector<std::string>> cells;
    std::size_t height = 1;
    for (std::size_t column = 0; column < row.size(); ++column) {
        cells.push_back(is_cut(shown.table.columns[column]) ? std::vector{cut(row[column], widths[column])}
                                                            : broken(row[column], widths[column]));
        height = std::max(height, cells.back().size());
    }
    for (std::size_t level = 0; level < height; ++level) {
        std::string line;
        for (std::size_t column = 0; column < row.size(); ++column) {
            const std::string text = level < cells[column].size() ? cells[column][level] : std::string();
            const std::string pad(widths[column] - std::min(widths[column], base::display_width(text)), ' ');
            if (column > 0) line.append(kGap, ' ');
            line += shown.is_number[column] ? pad + text : text + pad;
        }
        while (!line.empty() && line.back() == ' ') line.pop_back();
        out += line + "\n";
    }
}

// From the column `indent` on.
void append_wrapped(std::string& out, std::string_view text, std::size_t width, std::size_t indent) {
    std::string margin;
    for (const std::string& line : broken(text, width > indent ? width - indent : 1)) {
        out += margin + line + "\n";
        margin = std::string(indent, ' ');
    }
}

// Each row for itself: its first cell in front, its second beside it, and below what the others say, each after the
// title of its column. For a page too narrow for the table.
void append_list(std::string& out, const Shown& shown, std::size_t width) {
    const std::size_t indent = std::min(shown.widest(0, base::display_width), width / 3) + kGap;
    const std::string margin(indent, ' ');
    for (std::size_t row = 0; row < shown.texts.size(); ++row) {
        const std::vector<std::string>& cells = shown.texts[row];
        std::string rest;
        for (std::size_t at = 2; at < cells.size(); ++at)
            if (!cells[at].empty() && !std::holds_alternative<std::monostate>(shown.table.rows[row][at]))
                rest +=
                    (rest.empty() ? "" : "; ") + shown.titles[at] + (shown.titles[at].empty() ? "" : " ") + cells[at];
        std::vector<std::string> lines;
        if (cells.size() > 1 && !cells[1].empty()) lines = broken(cells[1], width - indent);
        if (!rest.empty())
            for (std::string& line : broken(rest, width - indent)) lines.push_back(std::move(line));
        const std::vector<std::string> front = broken(cells.front(), indent - kGap);
        for (std::size_t level = 0; level < std::max(front.size(), lines.size()); ++level) {
            const std::string label = level < front.size() ? front[level] : std::string();
            const std::string pad(indent - kGap - std::min(indent - kGap, base::display_width(label)), ' ');
            std::string line = shown.is_number[0] ? pad + label : label + pad;
            line += std::string(kGap, ' ') + (level < lines.size() ? lines[level] : std::string());
            while (!line.empty() && line.back() == ' ') line.pop_back();
            out += line + "\n";
        }
    }
}

void append_table(std::string& out, const Table& table, const Page& page) {
    const Shown shown(table);
    const auto widths = widths_of(shown, page.width_chars);
    if (!widths) {
        append_list(out, shown, page.width_chars);
        return;
    }
    if (page.color) out += kBold;
    append_row(out, shown, shown.titles, *widths);
    if (page.color) out.insert(out.size() - 1, kPlain);
    for (const auto& row : shown.texts) append_row(out, shown, row, *widths);
}

void append_particulars(std::string& out, const Particulars& particulars, const Page& page) {
    std::vector<std::string> labels;
    std::size_t widest = 0;
    for (const auto& line : particulars.lines) {
        labels.push_back(base::printable(line.first));
        widest = std::max(widest, base::display_width(labels.back()));
    }
    for (std::size_t at = 0; at < labels.size(); ++at) {
        const std::string& label = labels[at];
        const std::string& text = particulars.lines[at].second;
        out += "  " + label + std::string(widest - base::display_width(label) + kGap, ' ');
        append_wrapped(out, base::printable(text), page.width_chars, widest + 2 + kGap);
    }
}

}  // namespace

std::string render_text(const Document& document, const Page& page) {
    std::string out;
    for (const DocumentBlock& block : document.blocks) {
        if (const auto* heading = std::get_if<Heading>(&block)) {
            if (!out.empty()) out += '\n';
            if (page.color) out += kBold;
            append_wrapped(out, base::printable(heading->text), page.width_chars, 0);
            if (page.color) out.insert(out.size() - 1, kPlain);
        } else if (const auto* paragraph = std::get_if<Paragraph>(&block)) {
            append_wrapped(out, base::printable(paragraph->text), page.width_chars, 0);
        } else if (const auto* table = std::get_if<Table>(&block)) {
            append_table(out, *table, page);
        } else if (const auto* particulars = std::get_if<Particulars>(&block)) {
            append_particulars(out, *particulars, page);
        } else if (const auto* picture = std::get_if<Picture>(&block)) {
            out += picture->draw(std::min(page.width_chars, kWidestPicture));
        } else if (const auto* verbatim = std::get_if<Verbatim>(&block)) {
            out += verbatim->text;
        }
    }
    return out;
}

}  // namespace report
