// What several players can play together, and the note that opens most for all of them.
#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "collection/collection.h"
#include "planner/together.h"

namespace answers {

struct TogetherQuestion {
    Filter filter;  // two players or more, by name or known by their notes; nothing is said of what is missing
};

struct TogetherAnswer {
    std::vector<planner::Member> members;  // one without a name is `player 2`
    planner::Together found;
    std::int64_t tunes = 0;                      // that pass the filter and have a note
    std::map<tune::TuneId, std::string> titles;  // of the tunes found
    std::vector<LeftOutNotes> left_out_notes;
};

// Throws Refused.
TogetherAnswer answer(const collection::Collection& collection, const TogetherQuestion& question);

}  // namespace answers
