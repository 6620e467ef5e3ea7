// Bars compared by what sounds in them, and whole melodies by the same.
#pragma once

#include <cstdint>

#include "music/melody.h"

namespace analysis {

struct BarCount {
    int written = 0;    // as number_bars() of note_uses.h counts them
    int different = 0;  // of these, by notes and lengths; grace notes do not count
};

BarCount count_bars(const music::Melody& melody);

// Of the sounding notes, ties and lengths, in order: the same for two copies of one setting, whatever their bars and
// graces.
std::uint64_t hash_melody(const music::Melody& melody);

}  // namespace analysis
