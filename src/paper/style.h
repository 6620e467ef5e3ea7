// The style sheet of paper: src/paper/paper.css, embedded by the build.
#pragma once

#include <string_view>

namespace paper {

std::string_view style_sheet();

}  // namespace paper
