// Notes of our own as ABC text.
#pragma once

#include <string>
#include <vector>

namespace abc {

// Each note of the unit length, parted by blanks, under a signature of so many sharps (negative: flats): a sign stands
// only where neither the signature nor a note before it in the bar gives it. Spelled by music::spell_midi. MIDI.
std::string written_bar(const std::vector<int>& notes, int fifths);

// The signature, -3 to 4 sharps, under which these notes need fewest signs; of equals the one nearest to none, sharps
// before flats.
int plainest_signature(const std::vector<int>& notes);

}  // namespace abc
