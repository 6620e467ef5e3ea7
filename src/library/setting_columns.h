// The columns of a setting and the two statements that write them. Private to this room.
#pragma once

#include <cstdint>

#include "collection/stored_setting.h"
#include "library/settings_matched.h"
#include "library/statement.h"

namespace library {

extern const char* const kInsertSetting;  // ?1: its tune, which is its own
extern const char* const kUpdateSetting;  // ?1: its id; its tune stays

// Binds all columns of one of the two and runs it.
void bind_setting(Statement& statement, const collection::StoredSetting& setting, const Identity& identity,
                  std::int64_t file_id, std::int64_t needed_id, std::int64_t ornaments_id, std::int64_t occurrence,
                  std::uint64_t text_hash, std::int64_t own_id);

}  // namespace library
