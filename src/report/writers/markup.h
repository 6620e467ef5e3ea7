// Text as HTML and SVG have it.
#pragma once

#include <string>
#include <string_view>

namespace report {

// Harmless wherever text or the value of an attribute stands: no tag, no quote, no control character, and no sign that
// turns the direction of what follows.
std::string escaped(std::string_view text);

}  // namespace report
