// Whether one reading is another one so many semitones away, and the same in everything else.
#pragma once

#include "tune/setting.h"

namespace abc {

bool sounds_moved(const tune::Setting& before, const tune::Setting& after, int semitones);

}  // namespace abc
