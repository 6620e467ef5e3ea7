// What paper is drawn with: the pen of this program's figures, under the names of this room.
#pragma once

#include "report/writers/drawing.h"
#include "report/writers/letter_width.h"

namespace paper {

using report::Anchor;
using report::Drawing;
using report::Ink;
using report::kOtherFonts;
using report::kThin;
using report::number;
using report::Weight;
using report::width_of;

}  // namespace paper
