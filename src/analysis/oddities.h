// What looks wrong in one setting, in words a player reads. A pure function; never fails.
#pragma once

#include <cstddef>
#include <vector>

#include "tune/facts.h"
#include "tune/oddity.h"
#include "tune/setting.h"

namespace analysis {

// `facts` must be those of the setting. By place; those of the whole tune come first. What the reader reports already
// (a missing title, number or key, no music) is not said again. Of bars, repeats and parts the first kMaxTold of each
// are told one by one, the rest counted.
std::vector<tune::Oddity> find_oddities(const tune::Setting& setting, const tune::TuneFacts& facts);

constexpr std::size_t kMaxTold = 5;

}  // namespace analysis
