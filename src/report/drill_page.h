// A drill on paper: `gamut drill`.
#pragma once

#include <string>
#include <vector>

#include "hands/drill.h"
#include "instruments/instrument.h"
#include "music/note_set.h"
#include "report/document.h"

namespace report {

struct DrillPage {
    music::NoteSet have;                                  // without the new ones
    music::NoteSet fresh;                                 // the new notes
    const instruments::Instrument* instrument = nullptr;  // may be null; must outlive this
    std::vector<hands::Passage> drill;
    int fifths = 0;   // of the signature that spells the notes
    std::string abc;  // the same as an ABC tune
};

Document describe(const DrillPage& page);
std::string as_json(const DrillPage& page);

}  // namespace report
