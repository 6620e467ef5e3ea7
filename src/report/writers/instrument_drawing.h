// An instrument in plain text, as its player sees it: rows of buttons, strings, fingerings from the lowest note up.
#pragma once

#include <cstddef>
#include <string>

#include "instruments/instrument.h"
#include "music/note_set.h"

namespace report {

// Lines of at most `columns`, with a line end each; empty where there is nothing to see (a voice). Notes of `marked`
// stand in brackets. Sharps and flats as music::spell_midi has them beside one sharp.
std::string draw_instrument(const instruments::Instrument& instrument, const music::NoteSet& marked,
                            std::size_t columns = 80);

}  // namespace report
