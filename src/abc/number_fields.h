// `M:`, `L:` and `Q:`. ABC 2.1, sections 3.1.6 to 3.1.8.
#pragma once

#include <optional>
#include <string_view>

#include "music/duration.h"
#include "music/meter.h"
#include "tune/setting.h"

namespace abc {

// Nothing where the text gives no clear meter; `none` and an empty text are a free one.
std::optional<music::Meter> read_meter(std::string_view text);

// `1`, `1/8` down to `1/512`.
std::optional<music::Duration> read_unit(std::string_view text);

// Where no L: stands at the header's end: a meter under 0.75 gives 1/16, all others and a free meter 1/8.
music::Duration default_unit(const music::Meter& meter);

// `1/4=120`, `1/4 3/8 = 40` (one beat of both), `"Slow" 1/4=60`, words alone, and the older `120` and `C3=40`, which
// count in unit notes. Nothing for an empty text. What is no number is taken for words.
std::optional<tune::Tempo> read_tempo(std::string_view text);

}  // namespace abc
