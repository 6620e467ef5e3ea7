// user_version and application_id live in the file's first page and roll back with the rest. Tested by migrate_test.cc.
#include "library/migrate.h"

#include <filesystem>
#include <optional>

#include "base/failure.h"
#include "base/invariant.h"
#include "library/backup.h"
#include "library/journal_begun.h"

namespace library {

namespace {

[[noreturn]] void refuse(const Database& database, const std::string& why) {
    throw base::Failure("open", database.file(), why);
}

// 0: nothing in it yet.
int version_of(const Database& database, int newest) {
    std::int64_t application = 0;
    std::int64_t version = 0;
    std::int64_t tables = 0;
    try {
        application = database.number("PRAGMA application_id");
        version = database.number("PRAGMA user_version");
        tables = database.number("SELECT count(*) FROM sqlite_schema");
    } catch (const base::Failure& failure) {
        if (std::string_view(failure.what()).ends_with("file is not a database"))
            refuse(database, "the file is not a gamut library");
        throw;
    }
    const bool is_blank = application == 0 && version == 0 && tables == 0;
    if (is_blank) return 0;
    if (application != kApplicationId || version < 1) refuse(database, "the file is not a gamut library");
    if (version > newest)
        refuse(database, "the library was written by a newer gamut (its tables are version " + std::to_string(version) +
                             ", this gamut knows versions up to " + std::to_string(newest) + ")");
    return static_cast<int>(version);
}

void run_step(const Database& database, const Migration& step) {
    const auto make = [&] { database.exec(std::string(step.sql)); };
    if (makes_journal(step))
        begin_journal(database, make);
    else
        make();
}

}  // namespace

void require_known(const Database& database, std::span<const Migration> steps) {
    if (version_of(database, steps.back().version) == 0) refuse(database, "there is nothing in it");
}

void require_current(const Database& database, std::span<const Migration> steps) {
    const int newest = steps.back().version;
    const int version = version_of(database, newest);
    if (version == 0)
        refuse(database, "there is nothing in it yet; `gamut import` with a folder of ABC files fills it");
    if (version < newest)
        refuse(database, "the library was written by an older gamut; `gamut import` brings it up to date");
}

void migrate(const Database& database, std::span<const Migration> steps) {
    INVARIANT(!steps.empty());
    const int newest = steps.back().version;
    const int version = version_of(database, newest);
    if (version == newest) return;
    const std::optional<std::filesystem::path> kept = version > 0 ? std::optional(keep_backup(database)) : std::nullopt;
    // Lost power must not bring back the journal of one step when others have followed.
    database.exec("PRAGMA synchronous = EXTRA");
    database.exec(
        "PRAGMA foreign_keys = OFF");  // a step may rebuild a table that others point to; checked before the commit
    try {
        Transaction transaction(database);
        for (const Migration& step : steps)
            if (step.version > version) run_step(database, step);
        if (database.number("SELECT count(*) FROM pragma_foreign_key_check") != 0)
            refuse(database, "bringing it up to date would leave rows that point nowhere");
        database.exec("PRAGMA application_id = " + std::to_string(kApplicationId));
        database.exec("PRAGMA user_version = " + std::to_string(newest));
        transaction.commit();
    } catch (const base::Failure&) {
        if (kept) drop_backup(*kept);  // of what is as it was
        throw;
    }
    database.exec("PRAGMA foreign_keys = ON");
    if (kept) drop_old_backups(database.file());
}

}  // namespace library
