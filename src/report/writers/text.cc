#include "report/writers/text.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "base/utf8.h"
#include "report/words/cell_words.h"
#include "report/writers/fingered_bars.h"
#include "report/writers/instrument_drawing.h"

namespace report {

namespace {

constexpr std::string_view kBold = "\x1b[1m";
constexpr std::string_view kPlain = "\x1b[0m";
constexpr std::size_t kGap = 2;               // blanks between columns
constexpr std::size_t kNarrowestWrapped = 8;  // Source: house choice: narrower, hardly a word stays whole
constexpr std::size_t kNarrowestCut = 10;     // Source: house choice: narrower, hardly a title is known again
constexpr std::size_t kWidestPicture = 80;    // Source: house choice: a hand is found again on a short line
constexpr std::size_t kWidestBars = 78;       // Source: house choice: a page of 80 with a little room

constexpr std::size_t kRemarkIndent = 4;   // Source: house choice
constexpr std::size_t kExampleIndent = 4;  // Source: house choice

// Several lines of one cell, each harmless.
std::string text_of(const Cell& cell) {
    const auto* items = std::get_if<Items>(&cell);
    if (items == nullptr) return base::printable(cell_in_words(cell));
    Items harmless;
    for (const std::string& text : items->texts) harmless.texts.push_back(base::printable(text));
    return cell_in_words(Cell(std::move(harmless)));
}

// Calls with each line of a text, without its end.
template <typename Take>
void for_each_line(std::string_view text, Take take) {
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        take(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
    }
}

std::size_t widest_line(std::string_view text) {
    std::size_t widest = 0;
    for_each_line(text, [&](std::string_view line) { widest = std::max(widest, base::display_width(line)); });
    return widest;
}

// Where the letter that begins at `at` ends.
std::size_t end_of_letter(std::string_view text, std::size_t at) {
    std::size_t end = at + 1;
    while (end < text.size() && base::is_continuation_byte(text[end])) ++end;
    return end;
}

// At most `width` columns wide; what is cut ends in an ellipsis.
std::string cut(std::string_view text, std::size_t width) {
    if (base::display_width(text) <= width) return std::string(text);
    std::string kept;
    std::size_t used = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = end_of_letter(text, at);
        const std::size_t step = base::display_width(text.substr(at, end - at));
        if (used + step + 1 > width) break;
        kept += text.substr(at, end - at);
        used += step;
        at = end;
    }
    return kept + "\u2026";
}

// Lines of at most `width` columns. They end at blanks, which are left out there; a longer word is broken between
// letters, and a letter wider than the column stands alone.
void append_broken(std::vector<std::string>& lines, std::string_view text, std::size_t width) {
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
    if (!text.empty()) lines.emplace_back(text);
}

// The same, one line at least.
std::vector<std::string> broken(std::string_view text, std::size_t width) {
    std::vector<std::string> lines;
    append_broken(lines, text, width);
    if (lines.empty()) lines.emplace_back();
    return lines;
}

std::size_t longest_word(std::string_view text) {
    std::size_t longest = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(" \n"), text.size());
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

// What a table too wide for the page tries, one after the other.
enum class Squeeze { what_may_shrink, wrap_all, cut_more };

// To how many columns of the page a column of a table may shrink. Numbers stay whole.
std::size_t least_width(const Shown& shown, std::size_t at, Squeeze squeeze, std::size_t whole) {
    const Column& column = shown.table.columns[at];
    const std::size_t least = column.fit != Fit::whole ? std::min(column.narrowest, whole) : whole;
    if (squeeze == Squeeze::what_may_shrink) return least;
    if (column.fit == Fit::cut) return squeeze == Squeeze::cut_more ? std::min(kNarrowestCut, least) : least;
    if (column.fit == Fit::wrapped) return std::min(kNarrowestWrapped, least);
    const std::size_t cells = shown.is_number[at] ? shown.widest(at, widest_line) : shown.widest(at, longest_word);
    return std::min(std::max(longest_word(shown.titles[at]), cells), least);
}

// Nothing where the page is too narrow.
std::optional<std::vector<std::size_t>> widths_of(const Shown& shown, std::size_t page) {
    const std::size_t columns = shown.table.columns.size();
    std::vector<std::size_t> widths;
    std::size_t whole = 0;
    for (std::size_t at = 0; at < columns; ++at) {
        widths.push_back(std::max(base::display_width(shown.titles[at]), shown.widest(at, widest_line)));
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
        std::vector<std::string>& lines = cells.emplace_back();
        for_each_line(row[column], [&](std::string_view line) {
            if (shown.table.columns[column].fit == Fit::cut)
                lines.push_back(cut(line, widths[column]));
            else
                append_broken(lines, line, widths[column]);
        });
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

std::string in_one_line(std::string_view text) {
    std::string words;
    for_each_line(text, [&](std::string_view line) { words += (words.empty() ? "" : ", ") + std::string(line); });
    return words;
}

// Each row for itself: its first cell in front, beside it the second where it is words, and below what the others say,
// each after the title of its column. For a page too narrow for the table.
void append_list(std::string& out, const Shown& shown, std::size_t width) {
    const std::string name = shown.is_number[0] && !shown.titles[0].empty() ? shown.titles[0] + " " : "";
    const std::size_t indent =
        std::min(base::display_width(name) + shown.widest(0, widest_line), std::max(width / 3, std::size_t{1})) + kGap;
    const bool has_words = shown.titles.size() > 1 && shown.table.columns[1].fit != Fit::whole;
    const std::string margin(indent, ' ');
    for (std::size_t row = 0; row < shown.texts.size(); ++row) {
        const std::vector<std::string>& cells = shown.texts[row];
        std::string rest;
        for (std::size_t at = has_words ? 2 : 1; at < cells.size(); ++at)
            if (!cells[at].empty() && !std::holds_alternative<std::monostate>(shown.table.rows[row][at]))
                rest += (rest.empty() ? "" : "; ") + shown.titles[at] + (shown.titles[at].empty() ? "" : " ") +
                        in_one_line(cells[at]);
        std::vector<std::string> lines;
        if (has_words && !cells[1].empty()) lines = broken(in_one_line(cells[1]), width - indent);
        if (!rest.empty())
            for (std::string& line : broken(rest, width - indent)) lines.push_back(std::move(line));
        const std::vector<std::string> front =
            broken(cells.front().empty() ? std::string() : name + in_one_line(cells.front()), indent - kGap);
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

// A block after the other; what is said in words is made harmless.
class TextWriter {
public:
    explicit TextWriter(const Page& page) : page_(page) {}

    void operator()(const Title& title) {
        if (!title.goes_without_saying) add_heading(title.text);
    }
    void operator()(const Heading& heading) { add_heading(heading.text); }
    void operator()(const Paragraph& paragraph) { add_wrapped(paragraph.text); }
    void operator()(const Hint& hint) { add_wrapped(hint.text); }
    void operator()(const Caution& caution) { add_wrapped(caution.text); }
    void operator()(const Line& line) { out_ += base::printable(line.text) + "\n"; }
    void operator()(const Break&) { out_ += '\n'; }
    void operator()(const SectionEnd&) { out_ += '\n'; }
    void operator()(const Table& table) { append_table(out_, table, page_); }
    void operator()(const Particulars& particulars) { append_particulars(out_, particulars, page_); }
    void operator()(const Remarks& remarks) {
        for (const Remark& remark : remarks.remarks) {
            add_wrapped(remark.about);
            for (const std::string& words : remark.words) {
                out_ += std::string(kRemarkIndent, ' ');
                append_wrapped(out_, base::printable(words), page_.width_chars, kRemarkIndent);
            }
        }
    }
    void operator()(const List& list) {
        Particulars lines;
        for (std::size_t at = 0; at < list.items.size(); ++at)
            lines.lines.emplace_back(list.is_numbered ? std::to_string(at + 1) + "." : "-", list.items[at]);
        append_particulars(out_, lines, page_);
    }
    void operator()(const Music& music) { add_as_it_is(music.abc, 0); }
    void operator()(const Example& example) {
        const std::size_t widest = widest_line(example.text);
        add_as_it_is(example.text,
                     std::min(kExampleIndent, page_.width_chars > widest ? page_.width_chars - widest : 0));
    }
    void operator()(const FingeredBars& bars) {
        out_ += draw_fingered_bars(bars, std::min(page_.width_chars, kWidestBars));
    }
    void operator()(const InstrumentPicture& picture) {
        out_ += draw_instrument(picture.instrument, picture.marked, std::min(page_.width_chars, kWidestPicture));
    }

    void operator()(const Curves&) {}  // what it shows stands in the tables as well

    std::string text() && { return std::move(out_); }

    // Room above the next block of a text to be read from top to bottom; a heading brings its own.
    void set_apart(const DocumentBlock& block) {
        if (!out_.empty() && !std::holds_alternative<Title>(block) && !std::holds_alternative<Heading>(block))
            out_ += '\n';
    }

private:
    void add_heading(const std::string& text) {
        if (!out_.empty()) out_ += '\n';
        if (page_.color) out_ += kBold;
        add_wrapped(text);
        if (page_.color) out_.insert(out_.size() - 1, kPlain);
    }

    void add_as_it_is(std::string_view text, std::size_t indent) {
        for_each_line(text, [&](std::string_view line) {
            if (!line.empty()) out_ += std::string(indent, ' ') + base::printable(line);
            out_ += '\n';
        });
    }

    void add_wrapped(const std::string& text) { append_wrapped(out_, base::printable(text), page_.width_chars, 0); }

    const Page& page_;
    std::string out_;
};

}  // namespace

std::string render_text(const Document& document, const Page& page) {
    TextWriter writer(page);
    for (const DocumentBlock& block : document.blocks) {
        if (document.is_prose) writer.set_apart(block);
        std::visit(writer, block);
    }
    return std::move(writer).text();
}

}  // namespace report
