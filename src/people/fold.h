// From all that was said to what is kept: a pure function.
#pragma once

#include <cstdint>
#include <functional>
#include <span>

#include "people/kept.h"
#include "people/saying.h"

namespace people {

struct Entry {
    std::int64_t number = 0;  // where it is held here; names a player it adds
    std::int64_t rank = 0;    // its place among all sayings, from 1, erased ones counted
    Seal seal;
    bool is_from_elsewhere = false;  // its tunes' ids are those of another library
    Saying saying;
};

// The own id here of a tune that was named elsewhere; 0 when there is none.
using TuneHere = std::function<tune::TuneId(const NamedTune&)>;

// `entries` in the order of their ranks; those of one subject are enough to know what is kept of that, with those of
// Subject::journal. What is said of a tune that is not here, or of a player whose words were erased, says nothing. Two
// players of one name, added on two computers, are one; a name that is another's already is not taken.
Kept fold(std::span<const Entry> entries, const TuneHere& here);

}  // namespace people
