// Tested by curves_test.cc.
#include "report/writers/curves.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "report/writers/drawing.h"

namespace report {

namespace {

constexpr double kEm = 3.4, kLeft = 12, kTop = 4, kPlot = 62, kBelow = 10;  // mm
constexpr double kNames = 30;                                               // mm at the right, for names
constexpr double kLine = 0.5;                                               // mm

// 1, 2 or 5 times a power of ten, so that there are at most six marks on an axis.
double step_of(double most) {
    double step = 1;
    while (most / step > 6) step *= (most / (step * 2) <= 6) ? 2 : (most / (step * 5) <= 6) ? 5 : 10;
    return step;
}

std::string described(const Curves& curves) {
    std::string words;
    for (const Curves::Curve& curve : curves.curves)
        if (!curve.points.empty())
            words += fmt::format("{}{}: {} {} after {} {}", words.empty() ? "" : "; ", curve.name,
                                 number(curve.points.back().second), curves.up, number(curve.points.back().first),
                                 curves.across);
    return words + ".";
}

// Places of names at the right ends, so that none covers another.
std::vector<double> name_places(std::vector<double> ends) {
    std::vector<std::size_t> order(ends.size());
    for (std::size_t at = 0; at < order.size(); ++at) order[at] = at;
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return ends[a] < ends[b]; });
    for (std::size_t at = 1; at < order.size(); ++at)
        ends[order[at]] = std::max(ends[order[at]], ends[order[at - 1]] + kEm * 1.3);
    return ends;
}

}  // namespace

std::string draw_curves(const Curves& curves, double width) {
    Drawing drawing(width, curves.title, described(curves));
    double most_x = 1, most_y = 1;
    for (const Curves::Curve& curve : curves.curves)
        for (const auto& [x, y] : curve.points) most_x = std::max(most_x, x), most_y = std::max(most_y, y);
    const double across = width - kLeft - kNames;
    const auto x_of = [&](double x) { return kLeft + across * x / most_x; };
    const auto y_of = [&](double y) { return kTop + kPlot * (1 - y / most_y); };
    drawing.line(kLeft, kTop, kLeft, kTop + kPlot);
    drawing.line(kLeft, kTop + kPlot, kLeft + across, kTop + kPlot);
    for (double at = 0; at <= most_x; at += step_of(most_x)) {
        drawing.line(x_of(at), kTop + kPlot, x_of(at), kTop + kPlot + 1.2);
        drawing.words(x_of(at), kTop + kPlot + 5, number(at), kEm, Weight::regular, Anchor::middle);
    }
    for (double at = 0; at <= most_y; at += step_of(most_y)) {
        drawing.line(kLeft - 1.2, y_of(at), kLeft, y_of(at));
        drawing.words(kLeft - 2, y_of(at) + kEm * 0.35, number(at), kEm, Weight::regular, Anchor::right);
    }
    drawing.words(kLeft + across, kTop + kPlot + 9.2, curves.across, kEm, Weight::regular, Anchor::right);
    drawing.words(kLeft + 1.5, kTop, curves.up, kEm);
    std::vector<double> ends;
    for (const Curves::Curve& curve : curves.curves)
        ends.push_back(curve.points.empty() ? kTop + kPlot : y_of(curve.points.back().second));
    const std::vector<double> names = name_places(ends);
    for (std::size_t at = 0; at < curves.curves.size(); ++at) {
        const Curves::Curve& curve = curves.curves[at];
        for (std::size_t point = 0; point < curve.points.size(); ++point) {
            const double x = x_of(curve.points[point].first), y = y_of(curve.points[point].second);
            if (point > 0) {
                const double before_x = x_of(curve.points[point - 1].first);
                const double before_y = y_of(curve.points[point - 1].second);
                if (at == 0)
                    drawing.line(before_x, before_y, x, y, kLine);
                else
                    drawing.dashed_line(before_x, before_y, x, y, kLine);
            }
            if (at == 0) drawing.disc(x, y, 0.8);
            if (at == 1) drawing.filled(x - 0.8, y - 0.8, 1.6, 1.6);
            if (at > 1) drawing.triangle(x, y, 2, 1.8, kThin);
        }
        if (!curve.points.empty())
            drawing.words(x_of(curve.points.back().first) + 2, names[at] + kEm * 0.35, curve.name, kEm, Weight::bold);
    }
    return drawing.svg(kTop + kPlot + kBelow);
}

}  // namespace report
