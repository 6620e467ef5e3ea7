// An order of notes told as steps: what each opens, and what could have been learnt instead.
#pragma once

#include <span>
#include <vector>

#include "planner/goal.h"
#include "planner/plan.h"

namespace planner {

// `order` holds every note that tunes still lack, in MIDI numbers. Each note is a step, except where no single note
// would open anything: there the notes up to and including the one that opens something are one step.
//
// Runners-up of a note are single notes; of a group, the other sets of as many notes or fewer that open something and
// could not leave out a note. Only those that open something are named.
std::vector<Step> tell_steps(std::span<const Wanted> wanted, const Goal& goal, std::span<const int> order);

}  // namespace planner
