// Tested by page_test.cc.
#include "paper/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "paper/ink.h"
#include "paper/style.h"
#include "report/writers/markup.h"

namespace paper {

namespace {

std::string mm(double value) { return number(value) + "mm"; }

std::string standing(const std::vector<Piece>& pieces) {
    std::string html;
    for (const Piece& piece : pieces)
        html += fmt::format("<div class=\"piece\" style=\"height:{}\">{}</div>\n", mm(piece.height), piece.html);
    return html;
}

}  // namespace

double height_of(const std::vector<Piece>& pieces) {
    double height = 0;
    for (const Piece& piece : pieces) height += piece.height;
    return height;
}

std::vector<Page> to_pages(std::vector<Piece> pieces, double height) {
    std::vector<Page> pages(1);
    double left = height;
    for (std::size_t at = 0; at < pieces.size();) {
        std::size_t end = at + 1;  // a run that has to stay together
        double run = pieces[at].height;
        while (end < pieces.size() && (pieces[end - 1].keeps_with_next || !pieces[end].may_begin_page))
            run += pieces[end++].height;
        if (run > left && !pages.back().pieces.empty()) {
            pages.emplace_back();
            left = height - kRunning;
        }
        for (; at < end; ++at) {
            if (pieces[at].height > left && !pages.back().pieces.empty()) {
                pages.emplace_back();
                left = height - kRunning;
            }
            left -= pieces[at].height;
            pages.back().pieces.push_back(std::move(pieces[at]));
        }
    }
    return pages;
}

int lines_of(std::string_view text, const Type& type, double width) {
    const double blank = type.em * width_of(" ", type.weight);
    int lines = 1;
    double at = 0;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find(' '), text.size());
        const double word = type.em * width_of(text.substr(0, end), type.weight) * kOtherFonts;
        if (at > 0 && at + word > width) ++lines, at = 0;
        for (; word > width && at == 0;) {  // a word of its own lines
            lines += static_cast<int>(word / width);
            break;
        }
        at += word + blank;
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return lines;
}

Piece text_piece(std::string_view text, const Type& type, double width, std::string_view html) {
    const double height = lines_of(text, type, width) * type.line + type.below;
    return {fmt::format("<p class=\"{}\">{}</p>", type.name, html.empty() ? report::escaped(text) : std::string(html)),
            height};
}

Piece titled(std::string_view title, std::string_view whose) {
    constexpr double kWhoseEm = 4.0;  // mm; of `who` in paper.css
    Piece piece = text_piece(title, kTitle);
    piece.html = "<h1 class=\"title\">" + report::escaped(title) + "</h1>";
    if (whose.empty()) return piece;
    const double right = kWhoseEm * width_of(whose, Weight::bold) * kOtherFonts;
    if (lines_of(title, kTitle, kWidth - right - 6) == 1) {
        piece.html += "<p class=\"who\">" + report::escaped(whose) + "</p>";
    } else {
        piece.html += "<p class=\"plain\"><b>" + report::escaped(whose) + "</b></p>";
        piece.height += kPlain.line;
    }
    return piece;
}

void append(std::vector<Piece>& pieces, std::vector<Piece> more) {
    for (Piece& piece : more) pieces.push_back(std::move(piece));
}

Piece heading(std::string_view text, std::string_view right) {
    std::string html = "<h2>" + report::escaped(text);
    if (!right.empty()) html += "<span>" + report::escaped(right) + "</span>";
    return {html + "</h2>", 7.2, true};
}

Piece side_by_side(const std::vector<Piece>& left, double left_width, const std::vector<Piece>& right,
                   double right_width) {
    return {fmt::format(
                "<div class=\"left\" style=\"width:{}\">\n{}</div><div class=\"right\" style=\"width:{}\">\n{}</div>",
                mm(left_width), standing(left), mm(right_width), standing(right)),
            std::max(height_of(left), height_of(right))};
}

double room_above(const Foot& foot) {
    const int lines = 1 + (foot.caution.empty() ? 0 : lines_of(foot.caution, kSmallPrint, kWidth));
    return kHeight - lines * kSmallPrint.line - 1.6;
}

std::string html_of(const std::vector<Page>& pages, const Foot& foot) {
    std::string html;
    for (std::size_t at = 0; at < pages.size(); ++at) {
        html += "<section class=\"page\">\n";
        if (at > 0 && !foot.running.empty()) html += "<p class=\"running\">" + report::escaped(foot.running) + "</p>\n";
        html += standing(pages[at].pieces);
        html += "<footer>";
        if (!foot.caution.empty()) html += "<p>" + report::escaped(foot.caution) + "</p>";
        html += fmt::format("<p>{}<span>page {} of {}</span></p></footer>\n</section>\n", report::escaped(foot.line),
                            at + 1, pages.size());
    }
    return html;
}

std::string document_of(const std::string& title, const std::string& body) {
    return "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
           "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; "
           "img-src data:\">\n"
           "<meta name=\"viewport\" content=\"width=device-width\">\n<title>" +
           report::escaped(title) + "</title>\n<style>\n" + std::string(style_sheet()) +
           "</style>\n</head>\n<body>\n<main>\n" + body + "</main>\n</body>\n</html>\n";
}

}  // namespace paper
