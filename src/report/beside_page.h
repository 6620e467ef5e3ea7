// Two settings bar beside bar: `gamut tune A --beside B`.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "report/document.h"
#include "tune/record.h"

namespace report {

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

struct BesidePage {
    tune::TuneRecord one, other;
    double likeness = 0;         // 0 to 1
    int semitones = 0;           // up, by which `other` was moved to lie as `one` does
    bool is_moved = true;        // false where it cannot be written so; it then stands as it is written
    bool in_other_mode = false;  // the same steps of another scale
    std::vector<BarRow> rows;
};

Document describe_beside(const BesidePage& page);
// The shape `beside` of schema/output.md, with a line end.
std::string beside_json(const BesidePage& page);

}  // namespace report
