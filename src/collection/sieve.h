// One pass over a sheet, each setting judged by every filter given: judging all, rather than finding the few that
// match, is what makes it possible to say why the others were left out.
#pragma once

#include <cstdint>
#include <vector>

#include "collection/answer.h"
#include "collection/selection.h"
#include "collection/sheet.h"

namespace collection {

struct Sifted {
    std::size_t row = 0;  // in the sheet
    tune::TuneId tune;
    std::uint32_t failed = 0;      // bit n: does not pass the n-th filter given
    std::uint32_t rank = 0;        // in Selection::goes, from 1; 0 where it is not in it
    int lacking = 0;               // needed notes that Selection::nearest_to has not
    bool has_other_notes = false;  // as in TuneNotes; of those that passed
    bool is_open_key = false;      // as in Tally::open_keys
    music::NoteSet needed;         // grace notes included where the selection says so
};

// The settings that pass, one a tune unless the selection asks for all, in the order of the sheet; and the tally.
struct Sifting {
    std::vector<Sifted> passed;
    Tally tally;
};

// The sheet has at least columns_of(selection).
Sifting sift(const Sheet& sheet, const Selection& selection);

}  // namespace collection
