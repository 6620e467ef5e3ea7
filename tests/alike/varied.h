// A tune as another player may have it: variations made by rule, to measure whether they are still known for the tune.
#pragma once

#include <array>
#include <random>
#include <string_view>

#include "tune/outline.h"

namespace alike {

enum class Variation { other_mode, parts_moved, bars_halved, endings, ornaments, several };

constexpr std::array<Variation, 6> kVariations{Variation::other_mode, Variation::parts_moved, Variation::bars_halved,
                                               Variation::endings,    Variation::ornaments,   Variation::several};

std::string_view name_of(Variation variation);

// other_mode: third, sixth and seventh above the last note lowered where there are more major than minor thirds, else
//     raised
// parts_moved: the second part before the first, and so on
// bars_halved: each bar written as two, as 4/4 in 2/4 with the notes as they are
// endings: the second half of every fourth bar anew, in steps of the tune's own notes
// ornaments: a note in four filled in by its neighbour, one in twelve a step off
// several: other_mode, parts_moved and endings
tune::Outline varied(const tune::Outline& outline, Variation variation, std::mt19937& random);

}  // namespace alike
