// The words players call a kind of tune by, and the meters it is written in.
#pragma once

#include <string>
#include <string_view>

#include "music/melody.h"

namespace analysis {

// `Jigs`, `double jig`, `Slip-Jig`, `reels (single)`, `Slow Air` -> `jig`, `jig`, `slip jig`, `reel`, `air`. A kind we
// have no word for keeps its own, in lower case and singular. Empty for a blank line.
std::string rhythm_token(std::string_view stated);

// Whether a kind is written in such a meter. Kinds we have no meter for (airs, marches, set dances, unknown words) and
// a free meter always suit. `token` as rhythm_token() gives it. Source: common practice, no source, but where the .cc
// says otherwise.
bool rhythm_suits(std::string_view token, const music::Meter& meter);

// By its two numbers: C is 4/4, C| is 2/2.
bool is_meter(const music::Meter& meter, int beats, int unit);

// A bar lasts a whole note: 4/4, C, 2/2 and C|.
bool is_whole_note(const music::Meter& meter);

}  // namespace analysis
