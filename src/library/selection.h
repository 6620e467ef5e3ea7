// Named here for whoever asks a library.
#pragma once

#include "collection/selection.h"

namespace library {

using collection::Missing;
using collection::OctaveRange;
using collection::parse_sort;
using collection::Selection;
using collection::Sort;
using collection::sort_token;
using collection::TuneChoice;

}  // namespace library
