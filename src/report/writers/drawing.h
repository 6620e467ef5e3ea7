// A drawing in millimetres that becomes an SVG: lines, blocks, words. Black on white, no script, no style sheet, so
// that it can stand in any page.
#pragma once

#include <string>
#include <string_view>

#include "report/writers/letter_width.h"

namespace report {

// Thinner lines are lost on a copy of a copy. Source: house choice, after strokes of 0.25 mm turned to dots.
constexpr double kThin = 0.35;  // mm

enum class Anchor { left, middle, right };
enum class Ink { black, white };

// Where x grows to the right and y down, in mm, from the upper left corner.
class Drawing {
public:
    // `title` names it and `description` says in a sentence or two what it shows, for who cannot see it.
    Drawing(double width, std::string title, std::string description);

    void line(double x1, double y1, double x2, double y2, double stroke = kThin);
    void dashed_line(double x1, double y1, double x2, double y2, double stroke = kThin);
    void frame(double x, double y, double width, double height, double stroke = kThin, double radius = 0);
    void dashed_frame(double x, double y, double width, double height);
    void filled(double x, double y, double width, double height);
    void circle(double x, double y, double radius, double stroke = kThin);
    void disc(double x, double y, double radius);
    void half_disc(double x, double y, double radius);  // its left half filled
    void triangle(double x, double y, double width, double height,
                  double stroke = kThin);  // about its middle, on its base
    void wedge(double tip_x, double base_x, double y, double height, Ink ink = Ink::black);  // filled, lying
    void path(std::string_view commands, double stroke);                                     // of SVG, open
    // `y` is the line the letters stand on; `em` the type size in mm.
    void words(double x, double y, std::string_view text, double em, Weight weight = Weight::regular,
               Anchor anchor = Anchor::left, Ink ink = Ink::black);

    // What is drawn from here on to the next end belongs together and says so: `data-note="C#5"`.
    void begin(std::string_view attribute, std::string_view value);
    void end();

    // Puts another drawing here; its title and description are left out.
    void put(const Drawing& other, double x, double y);

    double width() const noexcept { return width_; }
    std::string svg(double height) const;  // the whole element

private:
    double width_;
    std::string title_, description_, marks_;
};

// A number as SVG has it: at most two places behind the point.
std::string number(double value);

}  // namespace report
