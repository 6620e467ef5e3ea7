// Opening a library that an import has made. Private to this room.
#pragma once

#include <filesystem>
#include <memory>

#include "library/database.h"

namespace library {

// Makes nothing and migrates nothing. Throws Failure when there is no such file, when it is not a library, when it was
// written by a newer gamut or by an older one whose tables differ, and with Access::write when it may not be written.
std::unique_ptr<Database> open_existing_library(const std::filesystem::path& file, Access access);

}  // namespace library
