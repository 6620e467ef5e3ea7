#include "report/writers/html.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

#include "report/words/cell_words.h"
#include "report/writers/curves.h"
#include "report/writers/instrument_drawing.h"
#include "report/writers/markup.h"
#include "report/writers/style.h"

namespace report {

namespace {

constexpr std::string_view kNameless = "gamut";
constexpr double kFigureWidth = 150;  // mm

// Line ends stay line ends.
std::string escaped_lines(std::string_view text) {
    std::string safe;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        safe += escaped(text.substr(0, end)) + "\n";
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return safe;
}

std::string element(std::string_view name, const std::string& text) {
    return fmt::format("<{0}>{1}</{0}>\n", name, escaped(text));
}

// What stands between the tags of a cell.
struct CellContent {
    std::string operator()(const Duration& duration) const {
        return fmt::format("<time datetime=\"PT{}S\">{}</time>", duration.seconds, clock_in_words(duration));
    }
    std::string operator()(const base::Date& date) const {
        return fmt::format("<time datetime=\"{0}\">{0}</time>", base::to_string(date));
    }
    std::string operator()(const Items& items) const {
        if (items.texts.empty()) return {};
        std::string list = "<ul>";
        for (const std::string& text : items.texts) list += "<li>" + escaped(text) + "</li>";
        return list + "</ul>";
    }
    template <typename Plain>
    std::string operator()(const Plain& plain) const {
        return escaped(cell_in_words(Cell(plain)));
    }
};

std::string class_of(const Cell& cell) {
    if (is_number(cell)) return " class=\"number\"";
    if (std::holds_alternative<Notes>(cell)) return " class=\"notes\"";
    if (std::holds_alternative<std::monostate>(cell)) return " class=\"unknown\"";
    return {};
}

bool is_from_above(const Cell& cell) { return std::holds_alternative<FromAbove>(cell); }

// A table with its cells over several rows. Rows that share one stand in one body.
class TableWriter {
public:
    explicit TableWriter(const Table& table) : table_(table) {}

    std::string text() && {
        out_ = "<table>\n<thead>\n<tr>";
        for (const Column& column : table_.columns)
            out_ += column.title.empty() ? "<td></td>" : "<th scope=\"col\">" + escaped(column.title) + "</th>";
        out_ += "</tr>\n</thead>\n<tbody>\n";
        for (std::size_t row = 0; row < table_.rows.size(); ++row) {
            const bool goes_on = goes_on_in(row);
            if (row > 0 && !goes_on && (goes_on_in(row - 1) || (row + 1 < table_.rows.size() && goes_on_in(row + 1))))
                out_ += "</tbody>\n<tbody>\n";
            add_row(row);
        }
        return std::move(out_) + "</tbody>\n</table>\n";
    }

private:
    bool goes_on_in(std::size_t row) const {
        return row > 0 && std::any_of(table_.rows[row].begin(), table_.rows[row].end(), is_from_above);
    }

    std::size_t rows_of(std::size_t row, std::size_t column) const {
        std::size_t end = row + 1;
        while (end < table_.rows.size() && is_from_above(table_.rows[end][column])) ++end;
        return end - row;
    }

    void add_row(std::size_t row) {
        out_ += "<tr>";
        for (std::size_t column = 0; column < table_.rows[row].size(); ++column) {
            const Cell& cell = table_.rows[row][column];
            if (row > 0 && is_from_above(cell)) continue;
            const std::size_t rows = rows_of(row, column);
            const std::string content = std::visit(CellContent(), cell);
            const bool names_row = column == 0 && !content.empty();
            out_ += names_row ? fmt::format("<th scope=\"{}\"", rows > 1 ? "rowgroup" : "row") : "<td";
            out_ += class_of(cell);
            if (rows > 1) out_ += fmt::format(" rowspan=\"{}\"", rows);
            out_ += ">" + content + (names_row ? "</th>" : "</td>");
        }
        out_ += "</tr>\n";
    }

    const Table& table_;
    std::string out_;
};

std::string bar_table(const FingeredBar& bar, bool has_air) {
    std::string out = "<table>\n<caption>" + escaped(bar.name) + "</caption>\n<tbody>\n";
    const auto add_row = [&out](std::string_view head, const std::vector<std::string>& cells) {
        out += fmt::format("<tr><th scope=\"row\">{}</th>", head);
        for (const std::string& cell : cells) out += "<td>" + escaped(cell) + "</td>";
        out += "</tr>\n";
    };
    add_row("note", bar.notes);
    add_row("played", bar.ways);
    if (has_air) {
        std::vector<std::string> air;
        for (const char letter : bar.air) air.emplace_back(letter == ' ' ? 0 : 1, letter);
        add_row("air", air);
    }
    return out + "</tbody>\n</table>\n";
}

class HtmlWriter {
public:
    void operator()(const Title& title) { out_ += element("h1", title.text); }
    void operator()(const Heading& heading) {
        end_section();
        out_ += "<section>\n" + element("h2", heading.text);
        is_in_section_ = true;
    }
    void operator()(const Paragraph& paragraph) { out_ += element("p", paragraph.text); }
    void operator()(const Hint& hint) { add_paragraph("hint", hint.text); }
    void operator()(const Caution& caution) { add_paragraph("caution", caution.text); }
    void operator()(const Line& line) { add_paragraph("line", line.text); }
    void operator()(const Break&) { out_ += "<hr>\n"; }
    void operator()(const SectionEnd&) { end_section(); }
    void operator()(const Table& table) { out_ += TableWriter(table).text(); }
    void operator()(const Particulars& particulars) {
        if (particulars.lines.empty()) return;
        out_ += "<dl>\n";
        for (const auto& [label, text] : particulars.lines)
            out_ += (label.empty() ? "" : "<dt>" + escaped(label) + "</dt>") + "<dd>" + escaped(text) + "</dd>\n";
        out_ += "</dl>\n";
    }
    void operator()(const Remarks& remarks) {
        if (remarks.remarks.empty()) return;
        out_ += "<dl class=\"remarks\">\n";
        for (const Remark& remark : remarks.remarks) {
            out_ += "<dt>" + escaped(remark.about) + "</dt>";
            for (const std::string& words : remark.words) out_ += "<dd>" + escaped(words) + "</dd>";
            out_ += "\n";
        }
        out_ += "</dl>\n";
    }
    void operator()(const List& list) {
        const std::string_view name = list.is_numbered ? "ol" : "ul";
        out_ += fmt::format("<{}>\n", name);
        for (const std::string& item : list.items) out_ += element("li", item);
        out_ += fmt::format("</{}>\n", name);
    }
    void operator()(const Music& music) { add_preformatted("abc", music.abc); }
    void operator()(const Example& example) { add_preformatted("example", example.text); }
    void operator()(const FingeredBars& bars) {
        if (bars.bars.empty()) return;
        out_ += "<figure class=\"bars\">\n";
        for (const FingeredBar& bar : bars.bars) out_ += bar_table(bar, bars.has_air);
        out_ += "</figure>\n";
    }
    void operator()(const InstrumentPicture& picture) {
        const std::string drawing = draw_instrument(picture.instrument, picture.marked);
        if (drawing.empty()) return;
        out_ += "<figure class=\"instrument\">\n";
        add_preformatted("drawing", drawing);
        out_ += element("figcaption", picture.instrument.title) + "</figure>\n";
    }

    void operator()(const Curves& curves) {
        out_ += "<figure class=\"curves\">\n" + draw_curves(curves, kFigureWidth);
        out_ += element("figcaption", curves.title) + "</figure>\n";
    }

    std::string text() && {
        end_section();
        return std::move(out_);
    }

private:
    void end_section() {
        if (is_in_section_) out_ += "</section>\n";
        is_in_section_ = false;
    }
    void add_paragraph(std::string_view kind, const std::string& text) {
        out_ += fmt::format("<p class=\"{}\">{}</p>\n", kind, escaped(text));
    }
    // The line end after the tag is none of the text.
    void add_preformatted(std::string_view kind, const std::string& lines) {
        out_ += fmt::format("<pre class=\"{}\">\n{}</pre>\n", kind, escaped_lines(lines));
    }

    std::string out_;
    bool is_in_section_ = false;
};

std::string title_of_page(const Document& document) {
    if (document.blocks.empty()) return std::string(kNameless);
    const DocumentBlock& first = document.blocks.front();
    if (const auto* title = std::get_if<Title>(&first)) return title->text;
    if (const auto* heading = std::get_if<Heading>(&first)) return heading->text;
    return std::string(kNameless);
}

}  // namespace

std::string render_html(const Document& document) {
    HtmlWriter writer;
    for (const DocumentBlock& block : document.blocks) std::visit(writer, block);
    return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
           "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
           "<meta name=\"viewport\" content=\"width=device-width\">\n" +
           element("title", title_of_page(document)) + "<style>\n" + std::string(style_sheet()) +
           "</style>\n</head>\n<body>\n<main>\n" + std::move(writer).text() + "</main>\n</body>\n</html>\n";
}

}  // namespace report
