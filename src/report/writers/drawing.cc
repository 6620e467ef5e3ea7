// Tested by drawing_test.cc.
#include "report/writers/drawing.h"

#include <fmt/format.h>

#include <utility>

#include "report/writers/markup.h"

namespace report {

namespace {

constexpr const char* kAnchors[] = {"start", "middle", "end"};

}  // namespace

std::string number(double value) {
    std::string text = fmt::format("{:.2f}", value);
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text == "-0" ? "0" : text;
}

Drawing::Drawing(double width, std::string title, std::string description)
    : width_(width), title_(std::move(title)), description_(std::move(description)) {}

void Drawing::line(double x1, double y1, double x2, double y2, double stroke) {
    marks_ += fmt::format("<path d=\"M{} {}L{} {}\" stroke=\"#000\" stroke-width=\"{}\"/>", number(x1), number(y1),
                          number(x2), number(y2), number(stroke));
}

void Drawing::dashed_line(double x1, double y1, double x2, double y2, double stroke) {
    marks_ += fmt::format("<path d=\"M{} {}L{} {}\" stroke=\"#000\" stroke-width=\"{}\" stroke-dasharray=\"1.2 1\"/>",
                          number(x1), number(y1), number(x2), number(y2), number(stroke));
}

void Drawing::frame(double x, double y, double width, double height, double stroke, double radius) {
    marks_ += fmt::format(
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{} fill=\"none\" stroke=\"#000\" "
        "stroke-width=\"{}\"/>",
        number(x), number(y), number(width), number(height),
        radius > 0 ? fmt::format(" rx=\"{}\"", number(radius)) : "", number(stroke));
}

void Drawing::dashed_frame(double x, double y, double width, double height) {
    marks_ += fmt::format(
        "<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\" fill=\"none\" stroke=\"#000\" "
        "stroke-width=\"{}\" stroke-dasharray=\"1.2 1\"/>",
        number(x), number(y), number(width), number(height), number(kThin));
}

void Drawing::filled(double x, double y, double width, double height) {
    marks_ += fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>", number(x), number(y), number(width),
                          number(height));
}

void Drawing::circle(double x, double y, double radius, double stroke) {
    marks_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"{}\"/>",
                          number(x), number(y), number(radius), number(stroke));
}

void Drawing::disc(double x, double y, double radius) {
    marks_ += fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>", number(x), number(y), number(radius));
}

void Drawing::half_disc(double x, double y, double radius) {
    circle(x, y, radius);
    marks_ += fmt::format("<path d=\"M{0} {1}A{2} {2} 0 0 0 {0} {3}Z\"/>", number(x), number(y - radius),
                          number(radius), number(y + radius));
}

void Drawing::triangle(double x, double y, double width, double height, double stroke) {
    marks_ += fmt::format("<path d=\"M{} {}L{} {}L{} {}Z\" fill=\"none\" stroke=\"#000\" stroke-width=\"{}\"/>",
                          number(x), number(y - height / 2), number(x + width / 2), number(y + height / 2),
                          number(x - width / 2), number(y + height / 2), number(stroke));
}

void Drawing::wedge(double tip_x, double base_x, double y, double height, Ink ink) {
    marks_ += fmt::format("<path d=\"M{} {}L{} {}L{} {}Z\"{}/>", number(tip_x), number(y), number(base_x),
                          number(y - height / 2), number(base_x), number(y + height / 2),
                          ink == Ink::white ? " fill=\"#fff\"" : "");
}

void Drawing::path(std::string_view commands, double stroke) {
    marks_ +=
        fmt::format("<path d=\"{}\" fill=\"none\" stroke=\"#000\" stroke-width=\"{}\"/>", commands, number(stroke));
}

void Drawing::words(double x, double y, std::string_view text, double em, Weight weight, Anchor anchor, Ink ink) {
    marks_ += fmt::format(
        "<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{}{}>{}</text>", number(x), number(y), number(em),
        weight == Weight::bold ? " font-weight=\"700\"" : "",
        anchor == Anchor::left ? "" : fmt::format(" text-anchor=\"{}\"", kAnchors[static_cast<std::size_t>(anchor)]),
        ink == Ink::white ? " fill=\"#fff\"" : "", escaped(text));
}

void Drawing::begin(std::string_view attribute, std::string_view value) {
    marks_ += fmt::format("<g {}=\"{}\">", attribute, escaped(value));
}

void Drawing::end() { marks_ += "</g>"; }

void Drawing::put(const Drawing& other, double x, double y) {
    marks_ += fmt::format("<g transform=\"translate({} {})\">{}</g>", number(x), number(y), other.marks_);
}

// `role` and the two texts: a screen reader says them, and nothing of the single marks.
std::string Drawing::svg(double height) const {
    return fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"{0}mm\" height=\"{1}mm\" "
        "viewBox=\"0 0 {0} {1}\" font-family=\"Nimbus Sans, Helvetica, Arial, sans-serif\">"
        "<title>{2}</title><desc>{3}</desc>{4}</svg>\n",
        number(width_), number(height), escaped(title_), escaped(description_), marks_);
}

}  // namespace report
