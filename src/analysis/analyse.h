// The room's door: a setting in, its facts out. A pure function; never fails.
#pragma once

#include "tune/facts.h"
#include "tune/setting.h"

namespace analysis {

tune::TuneFacts analyse(const tune::Setting& setting);

}  // namespace analysis
