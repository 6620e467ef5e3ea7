// What can be taken back: all that was said in one go, the last first.
#pragma once

#include <functional>
#include <span>
#include <unordered_set>
#include <vector>

#include "people/fold.h"

namespace people {

// Those that are as if they had never been said: taken back, and not given again.
std::unordered_set<Seal> undone_in(std::span<const Entry> entries);

// The sayings of the last go that still holds, in their order: its takings back are passed over, and so is what can
// never be taken back (an erasure, and a player who was erased). Of sayings that `is_meant`, where it is given. Empty
// when there is none. `entries` in the order of their ranks.
using IsMeant = std::function<bool(const Words&)>;
std::vector<const Entry*> last_go(std::span<const Entry> entries, const IsMeant& is_meant = {});

}  // namespace people
