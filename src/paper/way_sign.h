// The sign under a note: a button's number, a column of holes, a finger.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "instruments/instrument.h"
#include "paper/ink.h"

namespace paper {

enum class Hole : std::uint8_t { open, covered, half, gap };

struct WaySign {
    enum class Kind : std::uint8_t {
        none,    // nothing to be shown: a voice, a harp's string, what only words can tell
        number,  // of a button, a fret, a hole that is blown, or a finger
        holes,   // a column, the end that is blown at the top
    };
    // Tells rows of buttons apart. Source: house choice; shapes survive a copier, rings and colours do not.
    enum class Shape : std::uint8_t { plain, square, triangle };

    Kind kind = Kind::none;
    int lane = 0;         // 1: below the others, for the right of two hands
    std::string digits;   // of a number
    std::string beneath;  // a word under it: `low`, `high`, `bent`, the name of a key
    Shape shape = Shape::plain;
    bool has_thumb = false;  // the first of `holes` is the thumb's
    std::vector<Hole> holes;
    int breaths = 0;       // 1: more breath; 2: more still
    std::string strip;     // what the arm or the mouth does: `press`, `draw`, `blow`, `D string`; empty for none
    bool is_dark = false;  // of the strip: neighbours that are not alike differ in it

    friend bool operator==(const WaySign&, const WaySign&) = default;
};

WaySign sign_of(const instruments::Instrument& instrument, const instruments::Way& way);

// `inner row, button 6, press`; `D string, finger 2 high`; `hole 4, draw`. Of holes nothing: they have to be drawn.
std::string way_in_words(const instruments::Instrument& instrument, const instruments::Way& way);

// `the inner row`, as its player calls it.
std::string row_in_words(const instruments::Instrument& instrument, const std::string& row);

// How the signs of an instrument look: the same for all its ways.
struct SignLayout {
    int lanes = 1;
    std::size_t holes = 0;    // in the longest column, gap and thumb included; 0: none
    bool has_breath = false;  // a sign below the column
    bool has_words = false;   // a word beneath a number
    bool has_strip = false;
    bool has_numbers = false;
};
SignLayout layout_of(const instruments::Instrument& instrument);

// Heights in mm of the floor of signs, at a type size of `em` for numbers.
double sign_height(const SignLayout& layout, double em);

// About x, from y down.
void draw_sign(Drawing& drawing, const WaySign& sign, const SignLayout& layout, double x, double y, double em);

}  // namespace paper
