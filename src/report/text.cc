#include "report/text.h"

#include <algorithm>
#include <cmath>

#include "base/utf8.h"

namespace report {

namespace {

constexpr std::string_view kBold = "\x1b[1m";
constexpr std::string_view kPlain = "\x1b[0m";
constexpr std::size_t kGap = 2;  // blanks between columns

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
    while (base::display_width(text) > width) {
        std::size_t end = 0;                              // of what fits
        std::size_t last_blank = std::string_view::npos;  // the one the line can end before
        for (std::size_t used = 0; end < text.size();) {
            const std::size_t next = end_of_letter(text, end);
            if (text[end] == ' ' && end > 0) last_blank = end;
            used += base::display_width(text.substr(end, next - end));
            if (used > width) break;
            end = next;
        }
        if (last_blank != std::string_view::npos) end = last_blank;
        if (end == 0) end = end_of_letter(text, 0);
        std::string& line = lines.emplace_back(text.substr(0, end));
        while (!line.empty() && line.back() == ' ') line.pop_back();
        text.remove_prefix(end);
        while (text.starts_with(' ')) text.remove_prefix(1);
    }
    if (!text.empty() || lines.empty()) lines.emplace_back(text);
    return lines;
}

std::vector<std::size_t> widths_of(const Table& table, const std::vector<std::vector<std::string>>& texts,
                                   std::size_t page) {
    std::vector<std::size_t> widths;
    std::size_t whole = 0;
    for (std::size_t column = 0; column < table.columns.size(); ++column) {
        std::size_t width = base::display_width(table.columns[column].title);
        for (const auto& row : texts) width = std::max(width, base::display_width(row[column]));
        widths.push_back(width);
        whole += width + (column > 0 ? kGap : 0);
    }
    // The widest column that may shrink gives first.
    while (whole > page) {
        std::size_t widest = widths.size();
        for (std::size_t column = 0; column < widths.size(); ++column)
            if (table.columns[column].may_shrink && widths[column] > table.columns[column].narrowest &&
                (widest == widths.size() || widths[column] > widths[widest]))
                widest = column;
        if (widest == widths.size()) break;
        --widths[widest];
        --whole;
    }
    return widths;
}

void append_row(std::string& out, const Table& table, const std::vector<std::string>& row,
                const std::vector<std::size_t>& widths, const std::vector<bool>& right) {
    std::vector<std::vector<std::string>> cells;
    std::size_t height = 1;
    for (std::size_t column = 0; column < row.size(); ++column) {
        cells.push_back(table.columns[column].wraps ? broken(row[column], widths[column])
                                                    : std::vector{cut(row[column], widths[column])});
        height = std::max(height, cells.back().size());
    }
    for (std::size_t level = 0; level < height; ++level) {
        std::string line;
        for (std::size_t column = 0; column < row.size(); ++column) {
            const std::string shown = level < cells[column].size() ? cells[column][level] : std::string();
            const std::string pad(widths[column] - std::min(widths[column], base::display_width(shown)), ' ');
            if (column > 0) line.append(kGap, ' ');
            line += right[column] ? pad + shown : shown + pad;
        }
        while (!line.empty() && line.back() == ' ') line.pop_back();
        out += line + "\n";
    }
}

void append_table(std::string& out, const Table& table, const Page& page) {
    std::vector<std::vector<std::string>> texts;
    std::vector<bool> right(table.columns.size(), false);
    for (const auto& row : table.rows) {
        auto& shown = texts.emplace_back();
        for (std::size_t column = 0; column < row.size(); ++column) {
            shown.push_back(text_of(row[column]));
            if (is_number(row[column])) right[column] = true;
        }
    }
    const auto widths = widths_of(table, texts, page.width_chars);
    std::vector<std::string> titles;
    for (const Column& column : table.columns) titles.push_back(column.title);
    if (page.color) out += kBold;
    append_row(out, table, titles, widths, right);
    if (page.color) out.insert(out.size() - 1, kPlain);
    for (const auto& row : texts) append_row(out, table, row, widths, right);
}

void append_wrapped(std::string& out, std::string_view text, std::size_t width, std::size_t indent) {
    std::size_t column = indent;
    bool is_first = true;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string_view word = text.substr(at, end - at);
        const std::size_t size = base::display_width(word);
        if (!is_first && column + 1 + size > width) {
            out += "\n" + std::string(indent, ' ');
            column = indent;
        } else if (!is_first) {
            out += ' ';
            ++column;
        }
        out += word;
        column += size;
        is_first = false;
        at = end + 1;
    }
    out += '\n';
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
            const std::string text = base::printable(heading->text);
            out += page.color ? std::string(kBold) + text + std::string(kPlain) + "\n" : text + "\n";
        } else if (const auto* paragraph = std::get_if<Paragraph>(&block)) {
            append_wrapped(out, base::printable(paragraph->text), page.width_chars, 0);
        } else if (const auto* table = std::get_if<Table>(&block)) {
            append_table(out, *table, page);
        } else if (const auto* particulars = std::get_if<Particulars>(&block)) {
            append_particulars(out, *particulars, page);
        } else if (const auto* verbatim = std::get_if<Verbatim>(&block)) {
            out += verbatim->text;
        }
    }
    return out;
}

}  // namespace report
