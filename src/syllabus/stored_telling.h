// What is told of a plan, as a stored term holds it. Inside this room only.
#pragma once

#include <vector>

#include "syllabus/stored_values.h"
#include "syllabus/telling.h"

namespace syllabus {

// An object each, `is` its kind and the rest its members by their names; one in words is a text.
Json write_tellings(const std::vector<Telling>& tellings);

// Throws StoredFault, and Json::exception for what is no such list.
std::vector<Telling> read_tellings(const Json& json);

}  // namespace syllabus
