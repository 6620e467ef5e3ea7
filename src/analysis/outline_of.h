// A melody reduced to its outline.
#pragma once

#include "music/melody.h"
#include "tune/outline.h"

namespace analysis {

// In written order, repeats not unrolled. Never fails; times beyond tune::kMostTicks become that.
tune::Outline outline_of(const music::Melody& melody);

}  // namespace analysis
