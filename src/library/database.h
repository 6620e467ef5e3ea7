// One connection to one SQLite file. Private to this room, as is everything of SQLite.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

struct sqlite3;

namespace library {

enum class Access : std::uint8_t { read, write };

// How long a statement waits for another program before it fails. Source: house choice; a reader is never in the way
// for so long.
constexpr int kBusyMilliseconds = 5000;

// How long closing waits to put what was committed into the file itself. Source: house choice.
constexpr int kSettleMilliseconds = 1000;

// Closes what it opened. Every function that can fail throws base::Failure with the file's name and what SQLite said.
class Database {
public:
    // Access::write makes a missing file; Access::read writes only to undo what an interrupted program left half
    // written, which nobody could read otherwise. Foreign keys are on.
    Database(const std::filesystem::path& file, Access access);
    ~Database();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    void exec(const std::string& sql) const;              // one statement or several
    bool exec_unless_busy(const std::string& sql) const;  // false: another program was in the way, nothing was done
    std::int64_t number(std::string_view sql) const;      // the first column of the first row; 0 when there is none
    std::string text(std::string_view sql) const;         // the same as text; empty when there is none
    std::int64_t last_id() const noexcept;                // of the row inserted last
    std::int64_t changes() const noexcept;                // rows written by the last INSERT, UPDATE or DELETE

    // What a connection has found sound once needs not be looked at again: see journal_rows.h.
    bool believes(unsigned subject) const noexcept { return (believed_ >> subject & 1U) != 0; }
    void believe(unsigned subject) const noexcept { believed_ |= 1U << subject; }

    sqlite3* handle() const noexcept { return handle_; }
    const std::string& file() const noexcept { return file_; }
    // `doing` reads on from "could not": `read`, `write to`.
    [[noreturn]] void fail(const std::string& doing) const;

private:
    void open(int flags);
    bool was_left_half_written() const;

    std::string file_;
    sqlite3* handle_ = nullptr;
    mutable unsigned believed_ = 0;
};

// Undone when it goes out of scope without commit().
class Transaction {
public:
    explicit Transaction(const Database& database);  // BEGIN IMMEDIATE: waits for the right to write here, not later
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;

    // Where SQLite says that it failed, the file is asked: what is kept all the same is no failure. Throws Failure that
    // says so where it is kept but the disk refused to make it safe, and where it cannot be told.
    void commit();

private:
    const Database& database_;
    std::string before_;  // the end of the journal
    bool open_ = true;
};

}  // namespace library
