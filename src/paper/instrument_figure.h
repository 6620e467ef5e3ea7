// An instrument as its player sees it, with the notes one has, the new ones and those that are not there yet.
#pragma once

#include <optional>

#include "instruments/instrument.h"
#include "music/note_set.h"
#include "paper/ink.h"
#include "paper/note_letters.h"

namespace paper {

struct Figure {
    Drawing drawing;
    double height = 0;  // mm

    std::string svg() const { return drawing.svg(height); }
};

struct InstrumentNotes {
    music::NoteSet have;   // their letters stand there; a dash for the rest
    music::NoteSet fresh;  // framed
    int fifths = 0;        // that spell them
    Names names = Names::letters;
};

// Nothing for a voice, and for what has none of these notes. `width` in mm, 80 or more; what does not fit is set
// closer, and of rows of buttons only those are drawn that lie between the first and the last in use.
std::optional<Figure> draw_instrument(const instruments::Instrument& instrument, const InstrumentNotes& notes,
                                      double width);

}  // namespace paper
