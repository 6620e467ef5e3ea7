// How wide letters are, so that what is set on paper fits where it stands.
#pragma once

#include <string_view>

namespace report {

enum class Weight { regular, bold };

// Of a text in ems of its type size. Letters beyond ASCII are taken as wide as the widest of their like, so that no
// estimate is too small for Latin script.
// Source: NimbusSans-Regular.afm and NimbusSans-Bold.afm 1.00, URW, 2017, whose widths are those of Helvetica.
double width_of(std::string_view text, Weight weight);

// Fonts that stand in for it are no wider than this many times. Source: house choice, measured on the fonts of a plain
// Debian (DejaVu Sans is wider and not asked for).
constexpr double kOtherFonts = 1.08;

}  // namespace report
