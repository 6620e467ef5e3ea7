// Tested by database_test.cc.
#include "library/database.h"

#include <sqlite3.h>

#include "base/failure.h"
#include "library/library_file.h"
#include "library/statement.h"

namespace library {

Database::Database(const std::filesystem::path& file, Access access) : file_(file.string()) {
    open(access == Access::read ? SQLITE_OPEN_READONLY : SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE);
    if (access == Access::read && was_left_half_written()) {
        sqlite3_close(handle_);
        open(SQLITE_OPEN_READWRITE);
        was_left_half_written();  // reading undoes it now
        sqlite3_close(handle_);
        open(SQLITE_OPEN_READONLY);
    }
    sqlite3_extended_result_codes(handle_, 1);
    sqlite3_busy_timeout(handle_, kBusyMilliseconds);
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_ENABLE_FKEY, 1, nullptr);
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
}

void Database::open(int flags) {
    // Whole from the root: `:memory:` and `file:...` are then names like others.
    const std::string path = std::filesystem::absolute(file_).string();
    const int result = sqlite3_open_v2(path.c_str(), &handle_, flags | SQLITE_OPEN_NOMUTEX, nullptr);
    if (result == SQLITE_OK) return;
    const std::string said = handle_ != nullptr ? sqlite3_errmsg(handle_) : sqlite3_errstr(result);
    sqlite3_close(handle_);
    throw base::Failure("open", file_, said);
}

bool Database::was_left_half_written() const {
    sqlite3_exec(handle_, "SELECT 1 FROM sqlite_schema LIMIT 1", nullptr, nullptr, nullptr);
    const int code = sqlite3_extended_errcode(handle_);
    return code == SQLITE_READONLY_ROLLBACK || code == SQLITE_READONLY_RECOVERY || code == SQLITE_READONLY_CANTINIT;
}

Database::~Database() {
    // While an import is running, what others commit stands in its journal: from there it goes into the file itself
    // now, so that a copy of the file alone has it. Where somebody is in the way for long, a later one does it.
    if (sqlite3_total_changes(handle_) > 0) {
        sqlite3_busy_timeout(handle_, kSettleMilliseconds);
        sqlite3_wal_checkpoint_v2(handle_, nullptr, SQLITE_CHECKPOINT_FULL, nullptr, nullptr);
    }
    sqlite3_close(handle_);
}

void Database::exec(const std::string& sql) const {
    if (sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK)
        fail(sqlite3_db_readonly(handle_, "main") == 1 ? "read" : "write to");
}

bool Database::exec_unless_busy(const std::string& sql) const {
    const int result = sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr);
    if (result != SQLITE_OK && (result & 0xFF) != SQLITE_BUSY && (result & 0xFF) != SQLITE_LOCKED) fail("write to");
    return result == SQLITE_OK;
}

std::int64_t Database::number(std::string_view sql) const {
    Statement statement(*this, sql);
    return statement.step() ? statement.number(0) : 0;
}

std::string Database::text(std::string_view sql) const {
    Statement statement(*this, sql);
    return statement.step() ? std::string(statement.text(0)) : std::string();
}

std::int64_t Database::last_id() const noexcept { return sqlite3_last_insert_rowid(handle_); }

std::int64_t Database::changes() const noexcept { return sqlite3_changes64(handle_); }

void Database::fail(const std::string& doing) const {
    const int code = sqlite3_errcode(handle_) & 0xFF;
    if (code == SQLITE_BUSY || code == SQLITE_LOCKED) throw base::Failure(doing, file_, "another program is using it");
    throw base::Failure(doing, file_, sqlite3_errmsg(handle_));
}

namespace {

// By which one can tell whether something that was said is kept. Empty where nothing was ever said.
std::string end_of_journal(const Database& database) {
    if (database.number("SELECT count(*) FROM sqlite_schema WHERE name = 'journal_head'") == 0) return {};
    return database.text("SELECT seal || ' ' || sayings FROM journal_head");
}

}  // namespace

Transaction::Transaction(const Database& database) : database_(database) {
    database_.exec("BEGIN IMMEDIATE");
    try {
        before_ = end_of_journal(database_);
    } catch (const base::Failure&) {
        sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
        throw;
    }
}

Transaction::~Transaction() {
    // Some failures (a full disk) have already undone it; ROLLBACK would then only repeat that there is nothing to
    // undo.
    if (open_ && sqlite3_get_autocommit(database_.handle()) == 0)
        sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

void Transaction::commit() {
    const std::string said = end_of_journal(database_);
    try {
        database_.exec("COMMIT");
        open_ = false;
    } catch (const base::Failure& failure) {
        if (said == before_) throw;
        if (sqlite3_get_autocommit(database_.handle()) == 0)
            sqlite3_exec(database_.handle(), "ROLLBACK", nullptr, nullptr, nullptr);
        open_ = false;
        std::string kept;
        try {
            kept = end_of_journal(Database(database_.file(), Access::read));
        } catch (const base::Failure&) {
            throw base::Failure("write to", database_.file(),
                                std::string("the disk failed, and whether the change is kept cannot be told now (") +
                                    failure.what() + "); ask again before you say it again");
        }
        if (kept != said) throw;
        try {
            sync_folder_of(database_.file());
        } catch (const base::Failure&) {
            throw base::Failure("make safe", database_.file(),
                                std::string("the change is kept, but lost power may undo it (") + failure.what() + ")");
        }
    }
}

}  // namespace library
