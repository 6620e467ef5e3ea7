// Two settings that should be the same tune, one moved from the other.
#pragma once

#include <string>

#include "tune/setting.h"

namespace support {

// What is different beside every note sounding `semitones` higher, or nothing. Kept apart from what the program itself
// looks at before it hands out a moved tune.
std::string difference(const tune::Setting& before, const tune::Setting& after, int semitones);

}  // namespace support
