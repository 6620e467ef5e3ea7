// The same tune in staff notation, for those who read it: set by an engraver from a text of our own.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "answers/tune_handout.h"
#include "paper/page.h"

namespace paper {

// ABC in, SVG out; empty where nothing came of it. A face that has no engraver gives none.
using Engrave = std::function<std::string(const std::string& abc)>;

// A part as ABC 2.1 with directives for kWidth: notes, rests, ties, repeats and endings as in the blocks, in lines of
// `across` bars; under each note its sign where that is a number. Nothing of the user's own text stands in it.
std::string staff_text(const answers::TuneHandout& handout, const answers::BlockPart& part, std::size_t across);

// A heading and an image a part; nothing where the engraver gives nothing for one of them.
std::vector<Piece> staves(const answers::TuneHandout& handout, std::size_t across, const Engrave& engrave);

}  // namespace paper
