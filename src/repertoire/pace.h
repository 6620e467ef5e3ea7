// How fast a kind of tune is played, and so how long a tune lasts.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace repertoire {

enum class PaceKind : std::uint8_t { easy, session };

std::string_view to_string(PaceKind kind);  // `easy`, `session`
std::optional<PaceKind> parse_pace_kind(std::string_view token);

// Beats are those of the foot. Source of the numbers: common practice, no source.
struct Pace {
    std::string_view rhythm;  // a token
    int beats_in_bar = 2;     // in the meter usual for it
    int easy_from = 0;        // beats a minute, of a first year
    int easy_to = 0;
    int session_from = 0;  // of a session
    int session_to = 0;

    // The middle of the two, in beats a minute.
    int beats_a_minute(PaceKind kind) const;
};

// Kinds that have a beat to be counted; airs, set dances and harp pieces have none.
std::span<const Pace> paces();

// Nothing for a kind that has no beat, or that we have no word for.
std::optional<Pace> pace_of(std::string_view rhythm);

// Of a bar as it is written: a slide stands in 12/8 with four or in 6/8 with two, a march in 4/4 is trodden in four.
int beats_in_bar(const Pace& pace, std::string_view meter);

}  // namespace repertoire
