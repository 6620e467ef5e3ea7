// The words players call a kind of tune by, and the meters it is written in.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "music/melody.h"

namespace analysis {

// `Jigs`, `double jig`, `Slip-Jig`, `reels (single)`, `Slow Air` -> `jig`, `jig`, `slip jig`, `reel`, `air`. `Slow` by
// itself is an air, and before a dance says nothing of its kind. A kind we have no word for keeps its own, in lower
// case and singular. Empty for a blank line.
std::string rhythm_token(std::string_view stated);

// Whether a token is one of the kinds we have a word for.
bool is_known_rhythm(std::string_view token);

// The kinds we have a word for, each once.
std::vector<std::string> known_rhythms();

// The token of a word or two that name a kind we have a word for; nothing else is taken for one. Folded as base::fold
// does.
std::optional<std::string> known_rhythm(std::string_view folded_words);

// Meters that one rhythm is written in, whatever note counts: 6/4, 6/8 and 6/16 are one family, and so are 4/4, C, 2/2,
// C| and 4/2. A short duple bar lasts less than a whole note: 2/4, 4/8.
enum class MeterFamily : std::uint8_t { six, nine, twelve, three, three_minims, duple, short_duple, other };

MeterFamily meter_family(const music::Meter& meter);  // a free meter is `other`

// The kind a word means in a meter: a jig in 9/8 is a slip jig. Else the word itself. Source: common practice, no
// source.
std::string rhythm_in_meter(std::string token, const music::Meter& meter);

// Whether a kind is written in such a meter. Kinds we have no meter for (airs, marches, rants, set dances, unknown
// words) and a free meter always suit. `token` as rhythm_in_meter() gives it. Source: common practice, no source.
bool rhythm_suits(std::string_view token, const music::Meter& meter);

}  // namespace analysis
