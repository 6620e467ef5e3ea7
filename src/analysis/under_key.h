// A melody whose K: changes on the way, key by key.
#pragma once

#include <vector>

#include "music/melody.h"

namespace analysis {

// The keys that notes stand under, in the order of their first coming; one that comes again counts once. Two of one
// signature are two where K: names them differently.
std::vector<music::KeyChange> keys_in_turn(const music::Melody& melody);

// Only what sounds under `key`, one of keys_in_turn: bars and marks as they stand in the whole, a part ending where
// music is left out.
music::Melody under_key(const music::Melody& melody, const music::KeyChange& key);

}  // namespace analysis
