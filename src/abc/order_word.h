// The words of a score that say where to go on and where to end.
#pragma once

#include <optional>
#include <string_view>

#include "music/melody.h"

namespace abc {

// What stands in a decoration, an annotation or a chord symbol: `!fine!`, `"_D.C."`, `"Fine"`, `!D.C.alfine!`, in any
// case, with or without full stops. `!dacoda!` is D.C. al Coda. Nothing for other words. `segue` is none of them: over
// the first bars of a tune it asks for the same bowing (common practice, no source). Sections 4.14, 4.19.
std::optional<music::OrderMark::Kind> read_order_word(std::string_view text);

}  // namespace abc
