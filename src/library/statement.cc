// Tested by database_test.cc.
#include "library/statement.h"

#include <sqlite3.h>

#include <utility>

#include "base/failure.h"
#include "base/invariant.h"

namespace library {

Statement::Statement(const Database& database, std::string_view sql, bool is_kept) : database_(database) {
    const unsigned flags = is_kept ? SQLITE_PREPARE_PERSISTENT : 0;
    if (sqlite3_prepare_v3(database.handle(), sql.data(), static_cast<int>(sql.size()), flags, &handle_, nullptr) !=
        SQLITE_OK)
        database_.fail("read");
    INVARIANT(handle_ != nullptr);
}

Statement::~Statement() { sqlite3_finalize(handle_); }

Statement::Statement(Statement&& other) noexcept
    : database_(other.database_), handle_(std::exchange(other.handle_, nullptr)) {}

void Statement::bind_one(int place, std::int64_t value) {
    INVARIANT(sqlite3_bind_int64(handle_, place, value) == SQLITE_OK);
}

void Statement::bind_one(int place, std::string_view value) {
    const char* text = value.data() != nullptr ? value.data() : "";  // a null pointer would bind NULL
    const int result = sqlite3_bind_text64(handle_, place, text, value.size(), SQLITE_STATIC, SQLITE_UTF8);
    if (result == SQLITE_TOOBIG) throw base::Failure("write to", database_.file(), "a text is too long to be stored");
    INVARIANT(result == SQLITE_OK);
}

void Statement::bind_one(int place, Bytes value) {
    const int result = sqlite3_bind_blob64(handle_, place, value.bytes.data(), value.bytes.size(), SQLITE_STATIC);
    if (result == SQLITE_TOOBIG) throw base::Failure("write to", database_.file(), "a melody is too long to be stored");
    INVARIANT(result == SQLITE_OK);
}

void Statement::bind_null(int place) { INVARIANT(sqlite3_bind_null(handle_, place) == SQLITE_OK); }

bool Statement::step() {
    const int result = sqlite3_step(handle_);
    if (result == SQLITE_ROW) return true;
    if (result == SQLITE_DONE) return false;
    const bool reads = sqlite3_stmt_readonly(handle_) != 0;
    database_.fail(reads ? "read" : "write to");
}

void Statement::run() {
    const Reset reset(*this);
    while (step()) {
    }
}

void Statement::reset() noexcept { sqlite3_reset(handle_); }

int Statement::columns() const noexcept { return sqlite3_column_count(handle_); }

bool Statement::is_null(int column) const noexcept { return sqlite3_column_type(handle_, column) == SQLITE_NULL; }

std::int64_t Statement::number(int column) const noexcept { return sqlite3_column_int64(handle_, column); }

std::string_view Statement::text(int column) const noexcept {
    const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(handle_, column));
    if (text == nullptr) return {};
    return {text, static_cast<std::size_t>(sqlite3_column_bytes(handle_, column))};
}

std::string_view Statement::bytes(int column) const noexcept {
    const auto* bytes = static_cast<const char*>(sqlite3_column_blob(handle_, column));
    if (bytes == nullptr) return {};
    return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(handle_, column))};
}

std::optional<std::string> Statement::optional_text(int column) const {
    if (is_null(column)) return std::nullopt;
    return std::string(text(column));
}

std::optional<int> Statement::optional_number(int column) const {
    if (is_null(column)) return std::nullopt;
    return small_number(column);
}

}  // namespace library
