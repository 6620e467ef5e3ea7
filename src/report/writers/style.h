// The style sheet of answers as HTML: src/report/writers/page.css, embedded by the build.
#pragma once

#include <string_view>

namespace report {

std::string_view style_sheet();

}  // namespace report
