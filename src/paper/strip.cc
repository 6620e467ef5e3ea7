// Tested by block_lines_test.cc.
#include "paper/strip.h"

#include <algorithm>
#include <string>

namespace paper {

void Strip::add(Drawing& drawing, const WaySign& sign, double x) {
    if (run_ && run_->strip == sign.strip) return;
    end(drawing, x);
    if (sign.strip.empty()) return;
    run_ = sign;
    from_ = x;
    bars_.clear();
}

void Strip::end(Drawing& drawing, double x) {
    if (!run_) return;
    const double width = x - from_;
    const Ink ink = run_->is_dark ? Ink::white : Ink::black;
    if (run_->is_dark)
        drawing.filled(from_, y_, width, height_);
    else
        drawing.frame(from_, y_, width, height_);
    // The widest stretch without a bar line.
    double begin = from_, stretch = 0, middle = from_;
    bars_.push_back(x);
    for (const double bar : bars_) {
        if (bar - begin > stretch) stretch = bar - begin, middle = (begin + bar) / 2;
        begin = bar;
    }
    const auto fits = [&](std::string_view text) {
        return stretch >= em_ * width_of(text, Weight::bold) * kOtherFonts + 1.4;
    };
    const std::string brief = run_->strip.substr(0, run_->strip.find(' '));  // of `D string`
    const bool is_string = brief != run_->strip;
    if (fits(run_->strip) || is_string)
        drawing.words(middle, y_ + height_ / 2 + em_ * 0.35, fits(run_->strip) ? run_->strip : brief, em_, Weight::bold,
                      Anchor::middle, ink);
    else
        draw_air(drawing, run_->strip, middle, y_ + height_ / 2, std::min(height_ * 0.62, stretch / 2.4), ink);
    run_.reset();
}

void draw_air(Drawing& drawing, const std::string& strip, double x, double y, double size, Ink ink) {
    constexpr double kGap = 0.3;  // between the two wedges and the middle, mm
    const double length = size * 0.75;
    if (strip == "blow") {
        drawing.wedge(x + length / 2, x - length / 2, y, size, ink);
        return;
    }
    const bool is_draw = strip == "draw";
    for (const double side : {-1.0, 1.0})
        drawing.wedge(x + side * (is_draw ? kGap + length : kGap), x + side * (is_draw ? kGap : kGap + length), y, size,
                      ink);
}

}  // namespace paper
