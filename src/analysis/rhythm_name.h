// What kind of tune it is: from its R: line, or by meter and pattern when it has none.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "music/melody.h"
#include "tune/finding.h"

namespace analysis {

// `Jigs`, `double jig`, `Slip-Jig`, `reels (single)`, `Slow Air` -> `jig`, `jig`, `slip jig`, `reel`, `air`. A kind we
// have no word for keeps its own, in lower case and singular. Empty for a blank line.
std::string rhythm_token(std::string_view stated);

struct InferredRhythm {
    std::string token;
    std::vector<std::string> also_possible;  // tokens that notes and meter cannot rule out, likeliest first

    friend bool operator==(const InferredRhythm&, const InferredRhythm&) = default;
};

// Nothing for a free meter, one no kind is known by, and a melody without a note. Source: common practice, no source.
std::optional<InferredRhythm> infer_rhythm(const music::Meter& meter, const music::Melody& melody);

// What is stated goes before what is inferred.
std::optional<tune::Finding<std::string>> find_rhythm(const std::optional<std::string>& stated,
                                                      const music::Meter& meter, const music::Melody& melody);

// Whether a kind is written in such a meter. Kinds we have no meter for (airs, marches, set dances, unknown words) and
// a free meter always suit. `token` as rhythm_token() gives it. Source: common practice, no source, but where the .cc
// says otherwise.
bool rhythm_suits(std::string_view token, const music::Meter& meter);

}  // namespace analysis
