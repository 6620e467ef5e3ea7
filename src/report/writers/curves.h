// Curves of numbers that grow, as a drawing: each told apart by its line and its marks, none by colour.
#pragma once

#include <string>

#include "report/document.h"

namespace report {

// As SVG, with title and a description that says where each curve ends. `width` in mm, 80 or more.
std::string draw_curves(const Curves& curves, double width);

}  // namespace report
