// A line of music for who reads none: bars of blocks as wide as they last, what the foot does above, the signs of the
// instrument below, and under these what the arm does.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "answers/tune_blocks.h"
#include "music/note_set.h"
#include "paper/ink.h"
#include "paper/note_letters.h"
#include "paper/way_sign.h"

namespace paper {

// In mm. Source: house choice: found by trying on paper, read at arm's length (600 to 700 mm).
struct BlockSizes {
    double letter_em = 5.8;  // capitals are 0.73 of it
    double small_em = 4.1;   // where a block is too narrow for that
    double sign_em = 4.4;
    double strip_em = 3.0;
    double label_em = 3.7;
    double label_row = 5.0, foot_row = 4.5, block = 9.6, step = 2.0, strip_row = 3.7;
    double gap = 1.6;    // below the line
    double scale = 1.0;  // of discs, frames and beats
};
inline constexpr BlockSizes kUsual{};
inline constexpr BlockSizes kSmall{4.8, 4.1, 4.2, 3.0, 3.6, 4.7, 4.3, 8.2, 2.0, 3.6, 1.3, 1.0};
// Eight lines on a page.
inline constexpr BlockSizes kCompact{4.8, 4.1, 4.1, 3.0, 3.5, 4.4, 4.1, 7.4, 1.6, 3.4, 0.5, 1.0};
inline constexpr BlockSizes kLarge{9.2, 6.9, 6.9, 4.2, 5.0, 6.8, 6.4, 14.0, 3.2, 5.4, 2.4, 1.45};

// What all lines of a sheet share.
struct BlockStyle {
    BlockSizes sizes;
    Names names = Names::letters;
    int fifths = 0;  // that spell the notes
    SignLayout signs;
    const instruments::Instrument* instrument = nullptr;  // borrowed; null: no signs
    music::NoteSet fresh;                                 // framed
    double whole_note = 50;                               // mm
    double lead_in = 0;                                   // mm kept free for it at the left
    bool has_high = false, has_low = false;               // notes that leave the middle octave
    int taps = 0;                                         // of the foot in a whole bar; 0: freely
    bool is_of_tune = true;                               // its blocks carry data-note; those of a drill do not
};

// Bars that stand side by side.
struct BlockLine {
    std::optional<answers::BlockBar> lead_in;
    std::vector<answers::BlockBar> bars;
    std::vector<std::string> labels;  // one a bar: what is said above it beside its number
    double spare = 0;                 // of a last bar that is short: whole notes, kept for the lead-in of what follows
};

double height_of(const BlockStyle& style);  // without the gap
Drawing draw(const BlockLine& line, const BlockStyle& style, double width);

// As a number, of whole notes.
double whole_notes(const music::Duration& length);

// Of the bars, without a lead-in.
double length_of(const BlockLine& line);

// Whether every name finds room in its block; `em` is what the letters are set in.
bool has_room(const answers::Block& block, const BlockStyle& style, double em);

}  // namespace paper
