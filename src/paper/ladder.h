// The ladder on paper: all notes from low to high, whole rungs for those one has, bars beside it for those one lacks.
#pragma once

#include <map>
#include <string>

#include "answers/rungs.h"
#include "paper/instrument_figure.h"
#include "paper/note_letters.h"

namespace paper {

struct LadderLooks {
    Names names = Names::letters;
    int fifths = 0;                    // that spell the notes
    std::map<int, std::string> notes;  // said at the rung of a MIDI number in place of `new`: `lesson 3`
};

// `width` in mm, 60 or more.
Figure draw_ladder(const answers::Rungs& rungs, const LadderLooks& looks, double width);

// What its signs mean, and what it leaves out; in sentences.
std::string ladder_legend(const answers::Rungs& rungs);

}  // namespace paper
