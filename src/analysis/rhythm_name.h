// What kind of tune it is: from its R: line, or by meter and pattern when it has none.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "music/melody.h"
#include "tune/finding.h"

namespace analysis {

// `Jigs`, `double jig`, `Slow Air` -> `jig`, `jig`, `air`. A kind we have no word for keeps its own, in lower case.
std::string rhythm_token(std::string_view stated);

// Nothing for a free meter or one no kind is known by. Source: common practice, no source.
std::optional<std::string> infer_rhythm(const music::Meter& meter, const music::Melody& melody);

std::optional<tune::Finding<std::string>> find_rhythm(const std::optional<std::string>& stated, const music::Meter& meter,
                                                     const music::Melody& melody);

}  // namespace analysis
