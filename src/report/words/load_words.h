// A learning load in words, part by part. Inside this room only.
#pragma once

#include <string>

#include "repertoire/learning_load.h"
#include "report/words/json.h"

namespace report {

std::string part_in_words(repertoire::LoadPart part);                                // `bars to learn`
std::string load_in_words(const repertoire::Load& load, repertoire::LoadPart part);  // `3 of 8`; `-` for none
std::string in_tenths(int tenths);                                                   // `4.7`
std::string bars_known_in_words(const repertoire::Load& load);  // `you know 5 of its 8 different bars`
std::string fresh_in_words(const repertoire::Load& load);       // `C5, struck 3 times, is new`

Json load_json(const repertoire::Load& load);

}  // namespace report
