// The lowest floor of a line: what the arm or the mouth does, drawn as runs, so that every change is an edge.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "paper/ink.h"
#include "paper/way_sign.h"

namespace paper {

class Strip {
public:
    // Both in mm; `em` is the type size of its words.
    Strip(double y, double height, double em) : y_(y), height_(height), em_(em) {}

    // A sign begins at x: the run goes on where it says the same.
    void add(Drawing& drawing, const WaySign& sign, double x);
    void end(Drawing& drawing, double x);
    void bar_line(double x) { bars_.push_back(x); }  // words do not stand across it

private:
    double y_, height_, em_;
    std::optional<WaySign> run_;
    double from_ = 0;
    std::vector<double> bars_;  // since the run began
};

// The trade's sign for the air without a word: two wedges whose tips meet (press) or part (draw), one outwards (blow).
// About x and y.
void draw_air(Drawing& drawing, const std::string& strip, double x, double y, double size, Ink ink);

}  // namespace paper
