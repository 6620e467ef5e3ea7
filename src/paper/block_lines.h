// A tune cut into lines of so many bars, on one scale for the whole sheet.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "answers/tune_blocks.h"
#include "paper/block_line.h"

namespace paper {

struct PartLines {
    std::string heading;    // `Part A`; empty where a tune has one part alone
    std::string how_often;  // `play it twice`
    std::vector<BlockLine> lines;
};

// `across`: bars a line, at least 1.
std::vector<PartLines> cut(const answers::TuneBlocks& blocks, std::size_t across);

// How a line is to be drawn: the scale that lets the longest fill `width`, as much room for a lead-in as the longest
// takes, and which octaves are there.
BlockStyle fitted(BlockStyle style, const std::vector<PartLines>& parts, double width);

// Whether every name has room, set in small_em at the least.
bool has_room(const std::vector<PartLines>& parts, const BlockStyle& style);

// The greatest number of bars a line, of 4, 2 and 1, at which every name has room; 1 where none has.
std::size_t bars_across(const answers::TuneBlocks& blocks, const BlockStyle& style, double width);

}  // namespace paper
