// Two settings bar beside bar, in one key.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "answers/refusal.h"
#include "collection/collection.h"
#include "tune/record.h"

namespace answers {

// As setting_named takes them, any setting of a tune.
struct BesideQuestion {
    std::string one;
    std::string other;
};

// One side of a row: a bar by its number, from 1, with its ABC; or two, beside a bar that is as long as both.
struct BarText {
    int number = 0;  // 0 for a pick-up
    int to = 0;      // of the last; the same for one bar
    std::string abc;
};

struct BarRow {
    std::optional<BarText> one, other;  // one of them may have no such bar
    bool is_same = false;
};

struct BesideAnswer {
    tune::TuneRecord one, other;
    double likeness = 0;         // 0 to 1
    int semitones = 0;           // up, by which `other` was moved to lie as `one` does
    bool is_moved = true;        // false where it cannot be written so; it then stands as it is written
    bool in_other_mode = false;  // the same steps of another scale
    std::vector<BarRow> rows;
};

// Throws Refused.
BesideAnswer answer(const collection::Collection& collection, const BesideQuestion& question);

}  // namespace answers
