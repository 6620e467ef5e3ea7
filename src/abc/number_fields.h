// `M:` and `L:`. ABC 2.1, sections 3.1.6 and 3.1.7.
#pragma once

#include <optional>
#include <string_view>

#include "music/duration.h"
#include "music/meter.h"

namespace abc {

// Nothing where the text gives no clear meter; `none` and an empty text are a free one.
std::optional<music::Meter> read_meter(std::string_view text);

// `1`, `1/8` down to `1/512`.
std::optional<music::Duration> read_unit(std::string_view text);

// Where no L: stands at the header's end: a meter under 0.75 gives 1/16, all others and a free meter 1/8.
music::Duration default_unit(const music::Meter& meter);

}  // namespace abc
