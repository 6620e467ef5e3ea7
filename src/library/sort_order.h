// Settings in the order a listing shows them. Private to this room.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "library/database.h"
#include "library/selection.h"

namespace library {

// The first `limit` of `settings` (ascending ids) in the order of `sort`, which is total.
std::vector<std::int64_t> in_order(const Database& database, const std::vector<std::int64_t>& settings, Sort sort,
                                   std::optional<std::int64_t> limit);

}  // namespace library
