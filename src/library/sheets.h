// Rows of settings as a sheet. Private to this room.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "collection/sheet.h"
#include "library/database.h"

namespace library {

// Of all settings that are present, what a selection looks at. Throws Failure where a row is damaged.
collection::Sheet sheet_for(const Database& database, const collection::Selection& selection);

// Of these settings, present or gone, ascending: what a sort looks at. Unknown ids are left out.
collection::Sheet sheet_for(const Database& database, const std::vector<std::int64_t>& settings, collection::Sort sort);

// The first `limit` of `settings` (ascending) in the order of `sort`; `have` as collection::in_order.
std::vector<std::int64_t> settings_sorted(const Database& database, const std::vector<std::int64_t>& settings,
                                          collection::Sort sort, std::optional<std::int64_t> limit,
                                          const music::NoteSet& have = {});

}  // namespace library
