// Tested by library_test.cc and marks_test.cc.
#include "library/existing_library.h"

#include <sqlite3.h>

#include "base/failure.h"
#include "library/library_file.h"
#include "library/migrate.h"

namespace library {

namespace {

// An import that was killed leaves a journal, in which there may be what people said meanwhile. Another import that is
// running, or a folder that may not be written to, leaves it as it is: it can be read all the same.
void settle(const std::filesystem::path& file) {
    std::error_code unknown;
    if (!std::filesystem::exists(file.string() + "-wal", unknown)) return;
    try {
        const Database database(file, Access::write);
        sqlite3_busy_timeout(database.handle(), 0);
        database.exec_unless_busy("PRAGMA journal_mode = DELETE");
    } catch (const base::Failure&) {
        return;  // it will be told by whoever reads
    }
}

}  // namespace

std::unique_ptr<Database> open_existing_library(const std::filesystem::path& file, Access access) {
    std::error_code error;
    const bool is_there = std::filesystem::exists(file, error);
    if (error) throw base::Failure("open", file.string(), error.message());
    if (!is_there)
        throw base::Failure("open", file.string(),
                            "there is no library yet; `gamut import` with a folder of ABC files makes one");
    require_ordinary(file);
    settle(file);
    auto database = std::make_unique<Database>(file, access);
    // SQLite opens what may not be written to read it, and says nothing.
    if (access == Access::write && sqlite3_db_readonly(database->handle(), "main") == 1)
        throw base::Failure("write to", file.string(), "the file may only be read");
    require_current(*database);
    // What people say survives a power cut once it is answered: the folder is synced too when SQLite's own journal
    // goes.
    if (access == Access::write) database->exec("PRAGMA synchronous = EXTRA");
    return database;
}

}  // namespace library
