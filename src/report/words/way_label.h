// A way of making a note in a few signs, for a line under the notes.
#pragma once

#include <string>

#include "instruments/instrument.h"

namespace report {

// `i5` button 5 of the inner row; `A:2+` second finger, high, on the A string; `XXX|XOO` holes, with + when overblown;
// `D4^` a string with its lever up; `4b1` a draw bent once; empty where there is nothing to finger (a voice).
std::string way_label(const instruments::Instrument& instrument, const instruments::Way& way);

// Whether a player sees anything of it: not of a voice, nor of what has no notes.
bool can_be_seen(const instruments::Instrument& instrument);

// What the signs stand for, in a sentence; empty where they need no words.
std::string label_key(const instruments::Instrument& instrument);

// Where a note lies: `C row 6 press (grade 2: press on the inner row ...)`, and its other ways.
std::string place_in_words(const instruments::InstrumentNote& note);

// `p`, `d`, `b` for press, draw, blow; a blank for none.
char direction_letter(instruments::Direction direction) noexcept;

}  // namespace report
