// Why no path meets a goal, in words.
#pragma once

#include <string>

#include "planner/goal_fault.h"

namespace report {

std::string in_words(const planner::Fault& fault);  // one sentence, without its full stop

}  // namespace report
