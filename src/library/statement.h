// A prepared statement and its rows. Private to this room.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "library/database.h"

struct sqlite3_stmt;

namespace library {

// Bound as a blob, not as text.
struct Bytes {
    std::string_view bytes;
};

// Texts that are bound are borrowed: they must live until the rows have been read. Columns count from 0. A text column
// lives until the next step. Throws base::Failure when SQLite refuses.
class Statement {
public:
    // `is_kept`: prepared once and used many times.
    Statement(const Database& database, std::string_view sql, bool is_kept = false);
    ~Statement();
    Statement(Statement&& other) noexcept;
    Statement& operator=(Statement&&) = delete;

    // All parameters in order, from ?1 on. An empty optional is NULL.
    template <typename... Values>
    Statement& bind(const Values&... values) {
        int place = 0;
        (bind_one(++place, values), ...);
        return *this;
    }
    void bind_one(int place, std::int64_t value);
    void bind_one(int place, int value) { bind_one(place, std::int64_t{value}); }
    void bind_one(int place, bool value) { bind_one(place, std::int64_t{value}); }
    void bind_one(int place, std::uint32_t value) { bind_one(place, std::int64_t{value}); }
    void bind_one(int place, std::uint64_t value) { bind_one(place, static_cast<std::int64_t>(value)); }
    void bind_one(int place, std::string_view value);
    void bind_one(int place, const std::string& value) { bind_one(place, std::string_view(value)); }
    void bind_one(int place, const char* value) { bind_one(place, std::string_view(value)); }
    void bind_one(int place, Bytes value);
    void bind_null(int place);
    template <typename T>
    void bind_one(int place, const std::optional<T>& value) {
        value ? bind_one(place, *value) : bind_null(place);
    }

    bool step();  // true: there is a row
    void run();   // to its end; ready to be bound again
    void reset() noexcept;

    int columns() const noexcept;
    bool is_null(int column) const noexcept;
    std::int64_t number(int column) const noexcept;
    int small_number(int column) const noexcept { return static_cast<int>(number(column)); }
    std::string_view text(int column) const noexcept;
    std::string_view bytes(int column) const noexcept;  // of a blob; lives as long as a text
    std::optional<std::string> optional_text(int column) const;
    std::optional<int> optional_number(int column) const;

private:
    const Database& database_;
    sqlite3_stmt* handle_ = nullptr;
};

// Resets a kept statement when the scope that reads its rows ends, also by an exception.
class Reset {
public:
    explicit Reset(Statement& statement) noexcept : statement_(statement) {}
    ~Reset() { statement_.reset(); }
    Reset(const Reset&) = delete;
    Reset& operator=(const Reset&) = delete;

private:
    Statement& statement_;
};

}  // namespace library
