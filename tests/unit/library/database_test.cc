#include "library/database.h"

#include <catch2/catch.hpp>

#include "base/failure.h"
#include "library/statement.h"
#include "support/scratch.h"

using library::Access;
using library::Database;
using library::Statement;

TEST_CASE("database: values come back as they went in", "[library][database]") {
    const support::Scratch scratch;
    const Database database(scratch / "a.db", Access::write);
    database.exec("CREATE TABLE t (id INTEGER PRIMARY KEY, number INTEGER, word TEXT) STRICT");
    Statement insert(database, "INSERT INTO t (number, word) VALUES (?1, ?2)");
    const std::uint64_t large = 0xFFFF'FFFF'FFFF'FFFFU;
    insert.bind(large, "caf\xC3\xA9").run();
    insert.bind(std::optional<int>(), std::string_view()).run();
    CHECK(database.last_id() == 2);
    Statement rows(database, "SELECT number, word FROM t ORDER BY id");
    REQUIRE(rows.step());
    CHECK(static_cast<std::uint64_t>(rows.number(0)) == large);
    CHECK(rows.text(1) == "caf\xC3\xA9");
    REQUIRE(rows.step());
    CHECK(rows.is_null(0));
    CHECK(rows.optional_number(0) == std::nullopt);
    CHECK(rows.optional_text(1) == "");
    CHECK_FALSE(rows.step());
    CHECK(database.number("SELECT count(*) FROM t WHERE number IS NULL") == 1);
    CHECK(database.number("SELECT id FROM t WHERE id = 9") == 0);
}

TEST_CASE("database: a transaction without commit leaves nothing", "[library][database]") {
    const support::Scratch scratch;
    const Database database(scratch / "a.db", Access::write);
    database.exec("CREATE TABLE t (id INTEGER PRIMARY KEY) STRICT");
    {
        const library::Transaction transaction(database);
        database.exec("INSERT INTO t VALUES (1)");
    }
    CHECK(database.number("SELECT count(*) FROM t") == 0);
    {
        library::Transaction transaction(database);
        database.exec("INSERT INTO t VALUES (2)");
        transaction.commit();
    }
    CHECK(database.number("SELECT count(*) FROM t") == 1);
}

TEST_CASE("database: foreign keys hold on every connection", "[library][database]") {
    const support::Scratch scratch;
    const Database database(scratch / "a.db", Access::write);
    database.exec("CREATE TABLE a (id INTEGER PRIMARY KEY); CREATE TABLE b (a_id INTEGER REFERENCES a (id))");
    CHECK_THROWS_AS(database.exec("INSERT INTO b VALUES (5)"), base::Failure);
}

TEST_CASE("database: what an interrupted program left half written is undone by the next that reads",
          "[library][database]") {
    const support::Scratch scratch;
    {
        const Database database(scratch / "a.db", Access::write);
        database.exec("CREATE TABLE t (id INTEGER, filler TEXT); INSERT INTO t VALUES (1, 'kept')");
        database.exec("PRAGMA cache_spill = 1; PRAGMA cache_size = 1; BEGIN IMMEDIATE");
        database.exec(
            "UPDATE t SET filler = 'half'; WITH RECURSIVE n(i) AS (SELECT 2 UNION ALL SELECT i + 1 FROM n LIMIT"
            " 5000) INSERT INTO t SELECT i, hex(randomblob(200)) FROM n");
        // As the file stands when the power fails.
        std::filesystem::copy_file(scratch / "a.db", scratch / "b.db");
        std::filesystem::copy_file(scratch / "a.db-journal", scratch / "b.db-journal");
    }
    const Database reader(scratch / "b.db", Access::read);
    CHECK(reader.text("SELECT group_concat(filler) FROM t") == "kept");
    CHECK_FALSE(std::filesystem::exists(scratch / "b.db-journal"));
}

TEST_CASE("database: a failure says what was done to which file and what SQLite said", "[library][database]") {
    const support::Scratch scratch;
    const std::string path = (scratch / "nowhere/a.db").string();
    try {
        const Database database(path, Access::read);
        FAIL("opened a file that is not there");
    } catch (const base::Failure& failure) {
        CHECK(std::string(failure.what()) == "could not open " + path + ": unable to open database file");
    }
    const Database database(scratch / "a.db", Access::write);
    CHECK_THROWS_WITH(database.exec("INSERT INTO nowhere VALUES (1)"),
                      Catch::Contains("could not write to") && Catch::Contains("no such table: nowhere"));
    const Database reader(scratch / "a.db", Access::read);
    CHECK_THROWS_WITH(reader.exec("CREATE TABLE t (id INTEGER)"), Catch::Contains("readonly"));
}

TEST_CASE("database: a statement kept is ready again after its rows were left half read", "[library][database]") {
    const support::Scratch scratch;
    const Database database(scratch / "a.db", Access::write);
    Statement rows(database, "SELECT value FROM (SELECT 1 AS value UNION SELECT 2) WHERE value >= ?1 ORDER BY value",
                   true);
    for (const int from : {1, 2, 1}) {
        const library::Reset reset(rows);
        REQUIRE(rows.bind(from).step());
        CHECK(rows.small_number(0) == from);
    }
}
