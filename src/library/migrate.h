// Making a library's tables and bringing older ones up to date. Private to this room.
#pragma once

#include <span>

#include "library/database.h"
#include "library/migrations.h"

namespace library {

// Marks a SQLite file as ours: the letters "GAMU". Never changes.
constexpr int kApplicationId = 0x47414D55;

// Throws Failure unless the file is a library of exactly the version the last of `steps` makes.
void require_current(const Database& database, std::span<const Migration> steps = migrations());

// Throws Failure unless it is a library of that version or one before it.
void require_known(const Database& database, std::span<const Migration> steps = migrations());

// Runs what is missing, all in one transaction together with the version number. A library that has tables already is
// first kept as a backup (backup.h). Throws
// Failure when the file is something else or was written by a newer gamut; then nothing has changed.
void migrate(const Database& database, std::span<const Migration> steps = migrations());

}  // namespace library
