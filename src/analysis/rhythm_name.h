// What kind of tune it is: from its R: line, or by meter and pattern when it has none.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "music/melody.h"
#include "tune/finding.h"

namespace analysis {

struct InferredRhythm {
    std::string token;                       // as rhythm_token() of rhythm_words.h
    std::vector<std::string> also_possible;  // tokens that notes and meter cannot rule out, likeliest first

    friend bool operator==(const InferredRhythm&, const InferredRhythm&) = default;
};

// Nothing for a free meter, one no kind is known by, and a melody without a note. Source: common practice, no source.
std::optional<InferredRhythm> infer_rhythm(const music::Meter& meter, const music::Melody& melody);

// What is stated goes before what is inferred.
std::optional<tune::Finding<std::string>> find_rhythm(const std::optional<std::string>& stated,
                                                      const music::Meter& meter, const music::Melody& melody);

}  // namespace analysis
