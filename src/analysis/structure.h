// The parts a tune is made of, its phrases, and the bars that come again. Pure functions that never fail.
#pragma once

#include <span>
#include <vector>

#include "music/melody.h"
#include "tune/structure.h"

namespace analysis {

// `numbers` are those of number_bars() for the same melody. Source of the rules: common practice, no source.
//
// Parts begin and repeat where their signs say: find_sections().
//
// A tune without any sign is one part, unless it holds the same eight bars twice where a part of eight could
// begin: then every eight bars are a part, so that a tune of 32 bars written out may be A A B B.
//
// The music of two parts is the same when they count as many bars and differ, if at all, in pick-up, endings and last
// bar. Parts below four bars must agree in that one too.
tune::Structure find_structure(const music::Melody& melody, std::span<const int> numbers);

// The part alone: its bars and sounds count from 0, the first of its keys is the one in force where it begins.
music::Melody melody_of(const music::Melody& melody, const tune::Part& part);

// Numbers of bars that are alike, two or more to a group, ascending; groups by their first.
std::vector<std::vector<int>> equal_bars(const tune::Structure& structure, std::span<const int> numbers);

}  // namespace analysis
