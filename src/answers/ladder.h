// A short ladder of tunes to one that is too much at once.
#pragma once

#include <string>
#include <vector>

#include "answers/filter.h"
#include "collection/collection.h"
#include "repertoire/ladder.h"
#include "repertoire/learning_load.h"
#include "tune/record.h"

namespace answers {

struct LadderQuestion {
    Filter filter;        // of its stones; of tunes, not of settings; the asker is the player
    std::string player;   // by name
    std::string towards;  // an id, a title or a part of one
    repertoire::LoadWeights weights;
};

struct LadderAnswer {
    std::string player;
    repertoire::Ladder ladder;
    std::vector<tune::TuneRecord> records;  // one a rung
};

// Throws Refused.
LadderAnswer answer(const collection::Collection& collection, const LadderQuestion& question);

}  // namespace answers
