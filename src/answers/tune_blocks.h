// A tune as somebody goes through it who reads no music: every bar in order, each note as long as it sounds and with
// its way on an instrument.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "hands/cheapest_way.h"
#include "instruments/instrument.h"
#include "music/duration.h"
#include "music/melody.h"
#include "tune/facts.h"

namespace answers {

// A note or a rest. Of a chord the top note stands for all; grace notes have no time of their own and are left out.
struct Block {
    enum class Kind : std::uint8_t {
        struck,
        held,  // the note before goes on, over a bar line or a tie
        rest,
    };

    Kind kind = Kind::struck;
    int midi = 60;           // of a rest nothing
    music::Duration at;      // from the first block of its bar
    music::Duration length;  // as written, above zero
    bool has_way = false;    // struck, and the instrument has it; without an instrument never
    instruments::Way way;    // then: how

    friend bool operator==(const Block&, const Block&) = default;
};

// What stands between two bar lines, never empty.
struct BlockBar {
    int number = 0;          // as a player counts: 0 in a lead-in at the start
    bool is_pickup = false;  // a lead-in: its notes lie at the end of the bar they lead out of
    music::Meter meter;
    music::Duration length;                     // of all its blocks
    std::string ending;                         // `1`, `2`, `1,3` where one begins
    std::string phrase;                         // as tune::Phrase labels it, where one begins
    std::vector<music::OrderMark::Kind> marks;  // in it or behind it
    std::vector<Block> blocks;

    friend bool operator==(const BlockBar&, const BlockBar&) = default;
};

struct BlockPart {
    std::string label;
    bool is_repeated = false;
    std::optional<std::string> again_from;  // a repeat that ends with this part begins with another: its label
    int first_bar = 0;                      // the number of its first whole bar
    std::vector<BlockBar> bars;

    friend bool operator==(const BlockPart&, const BlockPart&) = default;
};

struct TuneBlocks {
    std::vector<BlockPart> parts;
    bool has_chords = false;  // of which the upper note is shown
    bool has_graces = false;  // which are left out

    friend bool operator==(const TuneBlocks&, const TuneBlocks&) = default;
};

// `facts` are those of `melody`. With `way`, the cheapest of the same melody, notes have theirs.
TuneBlocks blocks_of(const music::Melody& melody, const tune::TuneFacts& facts, const hands::CheapestWay* way);

}  // namespace answers
