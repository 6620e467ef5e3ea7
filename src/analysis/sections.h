// Where the parts of a tune begin and end, and what repeats, by its signs alone. Pure functions that never fail.
#pragma once

#include <vector>

#include "music/melody.h"
#include "tune/structure.h"

namespace analysis {

// A part as its signs show it: of `part`, the range of bars, the endings, the repeat and the label of a P: are set,
// nothing else.
struct Section {
    tune::Part part;
    bool opens = false;     // `|:` stands before it
    bool closes = false;    // `:|` stands in it
    bool has_sign = false;  // something else than the tune's start began it, or a sign stands in it
};

// In the order written; none for a melody without a bar that lasts. Linear in the bars. Source of the rules: common
// practice, no source.
//
// Parts begin at the start, at `|:`, after `:|`, after a thick bar line and at a P: (one inside a bar counts from the
// next bar). A bar that begins an ending goes on with its part. A lone short bar before a part is that part's pick-up.
//
// Repeats may be half-written: `:|` goes back to its `|:`, failing that to where its part begins. A `|:` that nothing
// closes repeats nothing; two endings repeat their part also without `:|`. An ending that no sign closes is as long as
// the first one, if four bars or more would be left over.
std::vector<Section> find_sections(const music::Melody& melody);

// True for a bar that is known to last no time at all.
bool is_empty_bar(const music::Bar& bar);

// True for a bar that is known to last less than its meter asks for; never in a free meter.
bool is_short_bar(const music::Bar& bar);

}  // namespace analysis
