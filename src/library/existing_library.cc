// Tested by library_test.cc and marks_test.cc.
#include "library/existing_library.h"

#include <sqlite3.h>

#include "base/failure.h"
#include "library/migrate.h"

namespace library {

std::unique_ptr<Database> open_existing_library(const std::filesystem::path& file, Access access) {
    std::error_code error;
    const bool is_there = std::filesystem::exists(file, error);
    if (error) throw base::Failure("open", file.string(), error.message());
    if (!is_there)
        throw base::Failure("open", file.string(),
                            "there is no library yet; `gamut import` with a folder of ABC files makes one");
    if (std::filesystem::is_directory(file, error))
        throw base::Failure("open", file.string(), "it is a folder, not a gamut library");
    auto database = std::make_unique<Database>(file, access);
    // SQLite opens what may not be written to read it, and says nothing.
    if (access == Access::write && sqlite3_db_readonly(database->handle(), "main") == 1)
        throw base::Failure("write to", file.string(), "the file may only be read");
    require_current(*database);
    return database;
}

}  // namespace library
