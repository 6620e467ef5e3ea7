// Tunes whose parts are in different keys.
#pragma once

#include <optional>
#include <vector>

#include "music/melody.h"
#include "tune/facts.h"

namespace analysis {

// The key of each part by its own notes; of a tune of one part that of the whole, `key`.
std::vector<std::optional<tune::KeyFinding>> find_part_keys(const music::Melody& melody,
                                                            const tune::Structure& structure,
                                                            const std::optional<tune::KeyFinding>& key);

// What the music under each K: is called by, in the order of keys_in_turn; empty where K: changes nowhere.
std::vector<music::Key> find_keys_in_turn(const music::Melody& melody);

// One key a part, where a part is decided and disagrees with the whole tune about the tonic or the third; else none. A
// part that is not decided goes by its likeliest.
std::vector<music::Key> differing_part_keys(const std::vector<std::optional<tune::KeyFinding>>& part_keys,
                                            const std::optional<tune::KeyFinding>& whole);

}  // namespace analysis
