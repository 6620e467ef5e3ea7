// Each table from the front, then from the back, then by its keys one by one where neither came. Tested by
// salvage_test.cc.
#include "library/salvage.h"

#include <sqlite3.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <memory>
#include <optional>

#include "base/failure.h"
#include "library/database.h"
#include "library/journal_rows.h"
#include "library/library_file.h"
#include "library/migrate.h"
#include "library/statement.h"

namespace library {

namespace {

namespace fs = std::filesystem;

// How many keys in a row are tried in vain between the last row read from the front and the last from the back.
// Source: house choice; more than one lost page can hide, and still a second only.
constexpr std::int64_t kMostMissed = 100'000;

using Handle = std::unique_ptr<sqlite3_stmt, decltype(&sqlite3_finalize)>;

Handle prepared(const Database& database, const std::string& sql) {
    sqlite3_stmt* statement = nullptr;
    sqlite3_prepare_v2(database.handle(), sql.c_str(), -1, &statement, nullptr);
    return {statement, &sqlite3_finalize};
}

// No page is at fault, and the next key would fare no better.
bool is_out_of_reach(int result) {
    const int kind = result & 0xFF;
    return kind == SQLITE_BUSY || kind == SQLITE_LOCKED || kind == SQLITE_NOMEM || result == SQLITE_IOERR_LOCK ||
           result == SQLITE_IOERR_RDLOCK;
}

std::vector<std::string> texts(const Database& database, const std::string& sql) {
    std::vector<std::string> all;
    Statement rows(database, sql);
    while (rows.step()) all.emplace_back(rows.text(0));
    return all;
}

std::string in_quotes(const std::string& name) { return "\"" + name + "\""; }

class Table {
public:
    Table(const Database& from, const Database& to, const std::string& name) : from_(from), to_(to) {
        told_.name = name;
        // The first column of the key is a number in every table of ours.
        const auto keys = texts(to, "SELECT name FROM pragma_table_info('" + name + "') WHERE pk = 1");
        key_ = keys.empty() ? "rowid" : in_quotes(keys.front());
        for (const std::string& column : texts(to, "SELECT name FROM pragma_table_info('" + name + "')")) {
            columns_ += (columns_.empty() ? "" : ", ") + in_quotes(column);
            marks_ += (marks_.empty() ? "?" : ", ?");
        }
    }

    SalvagedTable copy() {
        const Handle insert =
            prepared(to_, "INSERT INTO " + in_quotes(told_.name) + " (" + columns_ + ") VALUES (" + marks_ + ")");
        insert_ = insert.get();
        const std::string all = select();
        const End front = copy_rows(prepared(from_, all + " ORDER BY " + key_));
        if (!front.is_whole) {
            told_.has_gaps = true;
            const End back = copy_rows(prepared(from_, all + " ORDER BY " + key_ + " DESC"), front.last);
            const std::int64_t first = front.last.value_or(1);
            if (!back.is_whole) copy_one_by_one(first, back.last);
        }
        return told_;
    }

private:
    struct End {
        bool is_whole = false;
        std::optional<std::int64_t> last;  // key
    };

    std::string select() const { return "SELECT " + key_ + ", " + columns_ + " FROM " + in_quotes(told_.name); }

    // Until the end, a fault, or `until`.
    End copy_rows(const Handle& rows, const std::optional<std::int64_t>& until = std::nullopt) {
        End end;
        if (rows == nullptr) return end;
        int result = SQLITE_OK;
        while ((result = sqlite3_step(rows.get())) == SQLITE_ROW) {
            const std::int64_t key = sqlite3_column_int64(rows.get(), 0);
            if (until && key < *until) break;
            insert(rows.get());
            end.last = key;
        }
        if (is_out_of_reach(result)) from_.fail("read");
        end.is_whole = result == SQLITE_DONE;
        return end;
    }

    void copy_one_by_one(std::int64_t first, const std::optional<std::int64_t>& last) {
        const Handle row = prepared(from_, select() + " WHERE " + key_ + " = ?1");
        if (row == nullptr) return;
        std::int64_t missed = 0;
        for (std::int64_t key = first; missed < kMostMissed && (!last || key <= *last); ++key) {
            ++missed;
            sqlite3_bind_int64(row.get(), 1, key);
            int result = SQLITE_OK;
            while ((result = sqlite3_step(row.get())) == SQLITE_ROW) {
                insert(row.get());
                missed = 0;
            }
            if (is_out_of_reach(result)) from_.fail("read");
            sqlite3_reset(row.get());
        }
    }

    void insert(sqlite3_stmt* row) {
        for (int column = 1; column < sqlite3_column_count(row); ++column)
            sqlite3_bind_value(insert_, column, sqlite3_column_value(row, column));
        const int result = sqlite3_step(insert_);
        sqlite3_reset(insert_);
        if (result == SQLITE_DONE) {
            ++told_.rows;
        } else if ((result & 0xFF) != SQLITE_CONSTRAINT) {
            to_.fail("write to");
        } else if (result != SQLITE_CONSTRAINT_PRIMARYKEY && result != SQLITE_CONSTRAINT_ROWID) {  // not met before
            ++told_.refused;
        }
    }

    const Database& from_;
    const Database& to_;
    SalvagedTable told_;
    std::string key_, columns_, marks_;
    sqlite3_stmt* insert_ = nullptr;
};

// As they were made, without those that belong to title_search.
std::vector<std::string> tables_of(const Database& database) {
    return texts(database,
                 "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
                 " AND name NOT LIKE 'title_search%' ORDER BY rowid");
}

struct Loose {
    std::string table, column, parent, key;
};

std::vector<Loose> references(const Database& database) {
    std::vector<Loose> all;
    for (const std::string& table : tables_of(database)) {
        Statement rows(database, "SELECT \"table\", \"from\", coalesce(\"to\", 'id') FROM pragma_foreign_key_list(?1)");
        rows.bind(table);
        while (rows.step())
            all.push_back({table, std::string(rows.text(1)), std::string(rows.text(0)), std::string(rows.text(2))});
    }
    return all;
}

std::int64_t changes(const Database& database) { return sqlite3_changes(database.handle()); }

// A setting keeps its id, to which what people said holds on, as long as anything of it is left.
void mend_settings(const Database& database) {
    database.exec(
        "INSERT INTO file (id, path, shown, size, mtime_ns, imported_ns, content_hash, gone)"
        " SELECT DISTINCT file_id, 'lost ' || file_id, 'lost ' || file_id, 0, 0, 0, '', 1 FROM setting"
        " WHERE file_id NOT IN (SELECT id FROM file);"
        "UPDATE setting SET gone = 1 WHERE file_id IN (SELECT id FROM file WHERE gone = 1);"
        "INSERT OR IGNORE INTO note_set (low, high) VALUES (0, 0);"
        "UPDATE setting SET needed_id = (SELECT id FROM note_set WHERE low = 0 AND high = 0)"
        " WHERE needed_id NOT IN (SELECT id FROM note_set);"
        "UPDATE setting SET ornaments_id = (SELECT id FROM note_set WHERE low = 0 AND high = 0)"
        " WHERE ornaments_id NOT IN (SELECT id FROM note_set);"
        "UPDATE abc SET header_id = NULL WHERE header_id NOT IN (SELECT id FROM abc_header);"
        "INSERT OR IGNORE INTO abc (setting_id, header_id, text) SELECT id, NULL, '' FROM setting;"
        // Every file is read again, and every setting worked out anew.
        "UPDATE file SET content_hash = '', size = 0, mtime_ns = 0; UPDATE setting SET analysis_version = 0;");
}

// A tune is nothing but its id: one that is pointed to is made up rather than that what was said of it goes.
void mend_references(const Database& database, Salvage& salvage) {
    for (const Loose& loose : references(database)) {
        if (loose.parent != "tune") continue;
        database.exec("INSERT OR IGNORE INTO tune (id) SELECT DISTINCT " + in_quotes(loose.column) + " FROM " +
                      in_quotes(loose.table) + " WHERE " + in_quotes(loose.column) + " IS NOT NULL");
        salvage.tunes_made_up += changes(database);
    }
    for (bool is_any = true; is_any;) {  // what points to a row that goes must go too
        is_any = false;
        for (const Loose& loose : references(database)) {
            database.exec("DELETE FROM " + in_quotes(loose.table) + " WHERE " + in_quotes(loose.column) +
                          " IS NOT NULL AND " + in_quotes(loose.column) + " NOT IN (SELECT " + in_quotes(loose.key) +
                          " FROM " + in_quotes(loose.parent) + ")");
            salvage.rows_let_go += changes(database);
            is_any = is_any || changes(database) > 0;
        }
    }
}

void make_search(const Database& database) {
    database.exec(
        "INSERT INTO title_search (rowid, folded) SELECT setting_id, group_concat(folded, char(10)) || char(10)"
        " FROM (SELECT setting_id, folded FROM title ORDER BY setting_id, place) GROUP BY setting_id");
}

// The steps that make a library of the version the damaged one says it has.
std::span<const Migration> steps_of(const Database& from) {
    const auto all = migrations();
    std::int64_t version = 0;
    if (const Handle asked = prepared(from, "PRAGMA user_version"); asked && sqlite3_step(asked.get()) == SQLITE_ROW)
        version = sqlite3_column_int64(asked.get(), 0);
    const auto known = static_cast<std::int64_t>(all.size());
    return version >= 1 && version <= known ? all.first(static_cast<std::size_t>(version)) : all;
}

// What of the schema can be read is enough. Throws Failure where another program holds the file.
bool has_tables(const Database& database) {
    sqlite3_db_config(database.handle(), SQLITE_DBCONFIG_DEFENSIVE, 0, nullptr);
    sqlite3_exec(database.handle(), "PRAGMA writable_schema = ON", nullptr, nullptr, nullptr);
    for (const char* sql : {"SELECT id FROM tune", "SELECT id FROM setting"}) {
        if (prepared(database, sql)) return true;
        if (is_out_of_reach(sqlite3_extended_errcode(database.handle()))) database.fail("read");
    }
    return false;
}

void put_number(std::string& bytes, std::size_t at, std::uint64_t number) {
    for (std::size_t byte = 0; byte < 4; ++byte) bytes[at + byte] = static_cast<char>(number >> (24 - 8 * byte));
}

// The first bytes of a file say how to read the rest, and are the same in every library but for its size: where they
// are spoilt, those of a new one do. Source: the SQLite file format, section 1.3, the database header.
void write_with_new_header(const fs::path& from, const fs::path& to_file, const fs::path& copy) {
    constexpr std::size_t kHeader = 100, kPage = 4096, kPages = 28, kFreelist = 32, kFreePages = 36;
    const UnfinishedFile model(to_file);
    migrate(Database(model.path(), Access::write));
    const auto bytes_of = [](const fs::path& file) {
        std::ifstream stream(file, std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(stream), {});
    };
    std::string bytes = bytes_of(from);
    if (bytes.size() < kPage) return;
    bytes.replace(0, kHeader, bytes_of(model.path()).substr(0, kHeader));
    put_number(bytes, kPages, bytes.size() / kPage);
    put_number(bytes, kFreelist, 0);
    put_number(bytes, kFreePages, 0);
    std::ofstream stream(copy, std::ios::binary);
    stream << bytes;
    if (!stream.flush()) throw base::Failure("write", copy.string(), "the disk did not take all of it");
}

}  // namespace

bool Salvage::is_whole() const noexcept {
    return tunes_made_up == 0 && rows_let_go == 0 &&
           std::all_of(tables.begin(), tables.end(), [](const SalvagedTable& table) { return table.is_whole(); });
}

Salvage salvage(const fs::path& from_file, const fs::path& to_file) {
    require_ordinary(from_file);
    make_folders_above(to_file);
    auto opened = std::make_unique<Database>(from_file, Access::read);
    std::optional<UnfinishedFile> headed;
    if (!has_tables(*opened)) {
        headed.emplace(to_file);
        write_with_new_header(from_file, to_file, headed->path());
        auto again = std::make_unique<Database>(headed->path(), Access::read);
        if (!has_tables(*again)) opened->fail("read");
        opened = std::move(again);
    }
    const Database& from = *opened;
    // One lock for all of it, as long as no page fails: the library of one moment.
    from.exec("BEGIN");
    UnfinishedFile made(to_file);
    Salvage told;
    {
        const Database to(made.path(), Access::write);
        migrate(to, steps_of(from));
        to.exec("PRAGMA foreign_keys = OFF");
        {
            Transaction transaction(to);
            const bool has_journal = to.number("SELECT count(*) FROM sqlite_schema WHERE name = 'saying'") != 0;
            if (has_journal) to.exec("DELETE FROM journal_head; DELETE FROM kept_sum");  // of a new library
            for (const std::string& name : tables_of(to)) told.tables.push_back(Table(from, to, name).copy());
            mend_settings(to);
            if (has_journal) mend_journal(to);
            mend_references(to, told);
            if (has_journal)
                for (const people::Subject subject : kSubjects) store_sum(to, subject);
            make_search(to);
            transaction.commit();
        }
        to.exec("PRAGMA foreign_keys = ON");
        migrate(to);
    }
    if (!made.take_name())
        throw base::Failure("write", to_file.string(), "it is there already; only a new file is written");
    return told;
}

}  // namespace library
