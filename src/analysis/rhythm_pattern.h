// What kind of dance a tune may be by its meter and the pattern of its notes alone.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "music/melody.h"

namespace analysis {

struct InferredRhythm {
    std::string token;                       // as rhythm_token() of rhythm_words.h
    std::vector<std::string> also_possible;  // tokens that notes and meter cannot rule out, likeliest first

    friend bool operator==(const InferredRhythm&, const InferredRhythm&) = default;
};

// Nothing for a free meter, one no kind is known by, and a melody without a note. The answer is the same when all
// lengths are halved or doubled with the meter (6/4 for 6/8); a bar of 2/4 is also a polka's where one of 4/4 is not. A
// rant is never named: by its notes it is a reel. Source: common practice, no source, but where the .cc says otherwise.
std::optional<InferredRhythm> infer_rhythm(const music::Meter& meter, const music::Melody& melody);

}  // namespace analysis
