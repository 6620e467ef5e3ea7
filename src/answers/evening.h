// A set list that fills so many minutes.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "answers/filter.h"
#include "answers/notes_asked.h"
#include "answers/sieve.h"
#include "collection/collection.h"
#include "repertoire/evening.h"
#include "repertoire/tune_shape.h"

namespace answers {

struct EveningQuestion {
    Filter filter;                     // of tunes, not of settings
    std::vector<std::string> without;  // tunes that shall not be played: ids or titles
    repertoire::EveningGoal goal;
};

struct EveningAnswer {
    repertoire::EveningGoal goal;
    std::vector<repertoire::TuneShape> tunes;  // the evening's tunes index into these
    repertoire::Evening evening;
    std::int64_t doubles = 0;      // left aside as probably the same tune as another
    std::int64_t other_meter = 0;  // left aside: R: says the rhythm asked for, the meter allows another alone
    std::int64_t unwanted = 0;     // left aside as EveningQuestion::without says
    std::int64_t left_out = 0;     // by the filters
    std::int64_t scraps = 0;       // left aside, that pass the filters
    std::vector<Sieve> why;
    std::vector<LeftOutNotes> left_out_notes;
};

// Throws Refused.
EveningAnswer answer(const collection::Collection& collection, const EveningQuestion& question);

}  // namespace answers
