// The notes of an outline as somebody who looks for a phrase meets them.
#pragma once

#include <cstddef>

#include "analysis/find_heard.h"
#include "tune/outline.h"

namespace analysis {

// Calls visit(note, bar, begins) for each note in written order: indexes into Outline::notes and ::bars, and what
// begins with the note. A pick-up and the first note behind it both begin the tune; a pick-up into a part begins the
// part.
template <typename Visit>
void visit_heard_notes(const tune::Outline& outline, Visit visit) {
    Begins due = Begins::tune;  // of the next note
    bool is_before_first_bar = true;
    for (std::size_t bar = 0; bar < outline.bars.size(); ++bar) {
        const tune::OutlineBar& written = outline.bars[bar];
        const std::size_t end = outline.end_of(bar);
        if (due == Begins::within && written.begins_part) due = Begins::part;
        if (end == written.first_note) continue;
        if (is_before_first_bar) due = Begins::tune;
        for (std::size_t note = written.first_note; note < end; ++note) {
            visit(note, bar, due);
            if (note == written.first_note && !written.is_pickup) is_before_first_bar = false;
            due = Begins::within;
        }
        if (written.is_pickup) due = written.begins_part && !is_before_first_bar ? Begins::part : Begins::within;
    }
}

}  // namespace analysis
