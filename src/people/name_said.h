// Where a person's name stands in what was said of other things: in a tag, a kind, a reason, the name of a term.
#pragma once

#include <functional>
#include <span>
#include <string_view>
#include <vector>

#include "people/fold.h"
#include "tune/player.h"

namespace people {

// Whether a word of the text begins with the name, case and accents aside: Ina's is in "Inas waltz" and "for Ina", and
// not in "final".
bool says_name(std::string_view text, const tune::PlayerName& name);

// The sayings of tags, kinds and reasons that say it, and all of every term whose name does, whether they still hold or
// not, in order. Not looked at are players, titles of tunes, which are those of files, and the texts of terms.
std::vector<const Entry*> entries_saying(std::span<const Entry> entries, const tune::PlayerName& name);

}  // namespace people
