// Rows of settings as tune records. Private to this room.
#pragma once

#include <cstdint>
#include <vector>

#include "library/database.h"
#include "tune/record.h"

namespace library {

// In the order of `settings`; unknown ids are left out.
std::vector<tune::TuneRecord> records_of(const Database& database, const std::vector<std::int64_t>& settings);

}  // namespace library
