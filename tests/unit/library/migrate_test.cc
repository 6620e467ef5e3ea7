#include "library/migrate.h"

#include <sqlite3.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "base/failure.h"
#include "base/invariant.h"
#include "library/database.h"
#include "library/intake.h"
#include "library/journal.h"
#include "library/journal_begun.h"
#include "library/library.h"
#include "library/marks.h"
#include "library/players.h"
#include "library/statement.h"
#include "library/syllabi.h"
#include "sample.h"
#include "support/scratch.h"

using library::Access;
using library::Database;
using library::Migration;

namespace {

// The released steps and a made-up one more.
std::vector<Migration> with_next(std::string_view sql) {
    std::vector<Migration> steps(library::migrations().begin(), library::migrations().end());
    steps.push_back({steps.back().version + 1, sql});
    return steps;
}

// Which made the journal.
int journal_version() {
    for (const Migration& step : library::migrations())
        if (library::makes_journal(step)) return step.version;
    return 0;
}

int newest() { return library::migrations().back().version; }

void make_library_of_two(const std::filesystem::path& file) {
    library::Intake intake = library::Intake::open(file);
    intake.store_file(
        sample::file("/tunes/a.abc", {sample::setting("1", "Lamp", 11), sample::setting("2", "Rope", 22)}));
    intake.close();
}

// tests/support/old_rows: what tables that are new in a version held.
std::string rows_first_in(int version) {
    std::string number = std::to_string(version);
    number.insert(0, 4 - number.size(), '0');
    std::ifstream stream(std::string(GAMUT_SOURCE_DIR) + "/tests/support/old_rows/" + number + ".sql");
    return {std::istreambuf_iterator<char>(stream), {}};
}

// As a gamut of that version left it: two tunes, and something said in every table a person fills.
void make_library_of_version(const std::filesystem::path& file, int version) {
    const Database old(file, Access::write);
    const auto upgrade = [&](int to) {
        library::migrate(old, library::migrations().first(static_cast<std::size_t>(to)));
    };
    // From then on nothing is said but by the journal, and what was said before is in it.
    const int without_journal = std::min(version, journal_version() - 1);
    upgrade(without_journal);
    for (int rows = 1; rows <= without_journal; ++rows)
        if (const auto sql = rows_first_in(rows); !sql.empty()) old.exec(sql);
    upgrade(version);
    INVARIANT(old.number("PRAGMA user_version") == version);
    std::filesystem::remove(file.string() + ".backup-1");  // of the step to the journal: no part of what is made here
}

}  // namespace

TEST_CASE("migrations: numbered from 1 without gaps", "[library][migrate]") {
    int expected = 1;
    for (const Migration& step : library::migrations()) CHECK(step.version == expected++);
    CHECK(expected > 1);
}

TEST_CASE("migrate: from nothing to the present, marked as ours", "[library][migrate]") {
    const support::Scratch scratch;
    const Database database(scratch / "new.db", Access::write);
    library::migrate(database);
    CHECK(database.number("PRAGMA user_version") == newest());
    CHECK(database.number("PRAGMA application_id") == library::kApplicationId);
    CHECK(database.text("PRAGMA integrity_check") == "ok");
    CHECK(database.number("SELECT count(*) FROM setting") == 0);
    CHECK_NOTHROW(library::require_current(database));
    CHECK_NOTHROW(library::migrate(database));
    CHECK(std::distance(std::filesystem::directory_iterator(scratch.path()), {}) == 1);  // no copy of nothing
}

TEST_CASE("migrate: every table of ours is STRICT", "[library][migrate]") {
    const support::Scratch scratch;
    const Database database(scratch / "new.db", Access::write);
    library::migrate(database);
    CHECK(database.text(
              "SELECT group_concat(name) FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND strict = 0"
              " AND name NOT LIKE 'sqlite_%'") == "");
    CHECK_THROWS_AS(database.exec("INSERT INTO note_set (low, high) VALUES ('a', 0)"), base::Failure);
}

TEST_CASE("migrate: a library of version 1 gets a place for marks and loses nothing", "[library][migrate]") {
    const support::Scratch scratch;
    make_library_of_version(scratch / "l.db", 1);
    CHECK_THROWS_WITH(library::Library::open_existing(scratch / "l.db"),
                      Catch::Contains("written by an older gamut; `gamut import` brings it up to date"));
    CHECK_THROWS_WITH(library::Marks::change(scratch / "l.db"), Catch::Contains("written by an older gamut"));
    CHECK_FALSE(std::filesystem::exists(scratch / "l.db.backup-1"));  // asking migrates nothing
    library::Intake::open(scratch / "l.db").close();
    CHECK(std::filesystem::exists(scratch / "l.db.backup-1"));
    {
        library::Marks marks = library::Marks::change(scratch / "l.db");
        marks.set_count({2}, 4);
        marks.commit();
    }
    const library::Library library = library::Library::open_existing(scratch / "l.db");
    CHECK_FALSE(library.tune_by_id({1})->count);
    CHECK(library.tune_by_id({2})->count == 4);
}

TEST_CASE("migrate: what a person said to an older gamut is there afterwards", "[library][migrate]") {
    for (int version = 1; version < newest(); ++version) {
        CAPTURE(version);
        const support::Scratch scratch;
        make_library_of_version(scratch / "l.db", version);
        library::Intake::open(scratch / "l.db").close();
        {
            const Database database(scratch / "l.db", Access::read);
            CHECK(database.text("PRAGMA integrity_check") == "ok");
            CHECK(database.number("SELECT count(*) FROM pragma_foreign_key_check") == 0);
        }
        const library::Library library = library::Library::open_existing(scratch / "l.db");
        CHECK(sample::all_settings(library).size() == 2);
        CHECK(library.abc_of(sample::all_settings(library)[1].setting)->text == "X:2");
        const auto lamp = library.tune_by_id({1});
        const auto rope = library.tune_by_id({2});
        REQUIRE(lamp);
        REQUIRE(rope);
        CHECK(lamp->titles == std::vector<std::string>{"Lamp"});
        CHECK(lamp->tags == (version < 2 ? std::vector<std::string>{} : std::vector<std::string>{"Wedding"}));
        CHECK(lamp->count == (version < 2 ? std::nullopt : std::optional<std::int64_t>(3)));
        CHECK_FALSE(rope->count);
        CHECK(lamp->rhythm.has_value() == (version >= 10));
        CHECK(lamp->key_basis == (version < 10 ? tune::Basis::computed : tune::Basis::said));
        CHECK(library.verdicts().size() == (version < 3 ? 0 : 1));  // said to be different, so two tunes still
        CHECK(lamp->id != rope->id);
        const auto players = library.players();
        REQUIRE(players.size() == (version < 4 ? 0 : 1));
        if (version < 4) continue;
        const collection::PlayerRecord& ina = players.front();
        CHECK(ina.player.name.text == "Ina");
        CHECK(ina.player.instrument == "whistle-d");
        CHECK(ina.player.notes == sample::notes({62, 64}));
        REQUIRE(ina.tunes.size() == 2);
        CHECK(tune::state_of(ina.tunes[0]) == tune::TuneState::known);
        CHECK(ina.tunes[0].events.size() == 2);
        CHECK(ina.tunes[0].wished);
        CHECK(ina.tunes[1].excluded == "too high");
        library::Players change = library::Players::change(scratch / "l.db");
        REQUIRE(change.take_back(ina.player.id).size() == 1);  // the exclusion, said last
        CHECK_FALSE(change.said_of(ina.player.id, {2}).excluded);
        REQUIRE(change.take_back(ina.player.id).size() == 1);  // then the wish, then two events said in one go
        CHECK_FALSE(change.said_of(ina.player.id, {1}).wished);
        REQUIRE(change.take_back(ina.player.id).size() == 2);
        CHECK(change.said_of(ina.player.id, {1}).events.empty());
        CHECK(change.take_back(ina.player.id).empty());
    }
}

TEST_CASE("migrate: what was said before there was a journal stands in it, in order", "[library][migrate]") {
    const support::Scratch scratch;
    make_library_of_version(scratch / "l.db", journal_version() - 1);
    library::Intake::open(scratch / "l.db").close();
    std::string kinds;
    for (const people::Link& link : library::journal_of(scratch / "l.db"))
        kinds += std::string(people::kind_of(people::read_saying(*link.words).words)) + " ";
    CHECK(kinds == "tag count rhythm key same term term term player event event wish unwanted ");
    CHECK(library::faults_of_journal(scratch / "l.db").empty());
    CHECK(library::kept_syllabus(scratch / "l.db", "mon")->text == "planned again");
    const auto was = [](const std::string&, const std::string& before) { return before; };
    CHECK(library::take_back_syllabus(scratch / "l.db", "mon", was)->text == "planned");
    CHECK_FALSE(library::take_back_syllabus(scratch / "l.db", "tue", was));
    library::rebuild_kept(scratch / "l.db");
    CHECK(library::Library::open_existing(scratch / "l.db").tune_by_id({1})->rhythm->value == "hornpipe");
}

TEST_CASE("migrate: a table that is made anew keeps every column of every row", "[library][migrate]") {
    const support::Scratch scratch;
    const Database database(scratch / "l.db", Access::write);
    const std::string_view all_rows =
        "SELECT group_concat(id || '|' || tune_id || '|' || file_id || '|' || gone || '|' || needed_id || '|' ||"
        " ornaments_id || '|' || first_note || '|' || last_note || '|' || tonic || '|' || mode || '|' || key_decided ||"
        " '|' || key_candidates || '|' || rhythm || '|' || rhythm_basis || '|' || meter || '|' || line || '|' ||"
        " number || '|' || occurrence || '|' || folded_title || '|' || rhythm_stated || '|' || key_stated || '|' ||"
        " note_count || '|' || bars || '|' || different_bars || '|' || errors || '|' || melody_hash || '|' ||"
        " text_hash || '|' || analysis_version || '|' || own_tune_id || '|' || melody_class || '|' ||"
        " rhythm_possible || '|' || form || '|' || part_keys || '|' || largest_leap, char(10)) FROM setting";
    library::migrate(database, library::migrations().first(5));
    database.exec(
        "INSERT INTO file VALUES (3, '/tunes/a.abc', 'a.abc', 100, 1, 9, 'hash', 0);"
        "INSERT INTO tune (id) VALUES (1), (2); INSERT INTO note_set VALUES (4, 0, 0), (5, 0, 1);"
        "INSERT INTO setting VALUES (7, 2, 3, 1, 4, 5, 62, 67, 'G', 'major', 1, 'G major,E minor', 'reel', 'computed',"
        " '4/4', 12, '8', 13, 'lamp', 'Reel', 'Gmaj', 24, 18, 14, 15, -16, 17, 2, 1, 19, 'hornpipe', 'AABB',"
        " 'G major,D major', 11);");
    const std::string before = database.text(std::string(all_rows));
    REQUIRE(std::count(before.begin(), before.end(), '|') == 33);
    library::migrate(database);
    CHECK(database.text(std::string(all_rows)) == before);
    for (const char* basis : {"stated", "computed", "assumed", "title", "said"})
        CHECK_NOTHROW(database.exec("UPDATE setting SET rhythm_basis = '" + std::string(basis) + "'"));
    CHECK_THROWS_AS(database.exec("UPDATE setting SET rhythm_basis = 'dreamt'"), base::Failure);
}

TEST_CASE("migrate: the tables are the same whichever version they come from", "[library][migrate]") {
    const auto tables_from = [](int version) {
        const support::Scratch scratch;
        const Database database(scratch / "new.db", Access::write);
        library::migrate(database, library::migrations().first(static_cast<std::size_t>(version)));
        CHECK(database.number("PRAGMA user_version") == version);
        library::migrate(database);
        return database.text(
            "SELECT group_concat(type || ' ' || name || ' ' || tbl_name || ' ' || ifnull(sql, ''), char(10)) FROM "
            "(SELECT * FROM sqlite_schema ORDER BY type, name)");
    };
    const std::string newest_tables = tables_from(newest());
    CHECK_THAT(newest_tables, Catch::Contains("table syllabus"));
    for (int version = 1; version < newest(); ++version) {
        CAPTURE(version);
        CHECK(tables_from(version) == newest_tables);
    }
}

TEST_CASE("migrate: an older library keeps its rows and a copy of itself", "[library][migrate]") {
    const support::Scratch scratch;
    make_library_of_two(scratch / "l.db");
    const auto steps = with_next("ALTER TABLE tune ADD COLUMN note TEXT; UPDATE tune SET note = 'tune ' || id;");
    {
        const Database database(scratch / "l.db", Access::write);
        library::migrate(database, steps);
        CHECK(database.number("PRAGMA user_version") == newest() + 1);
        CHECK(database.text("SELECT note FROM tune WHERE id = 2") == "tune 2");
        CHECK(database.number("SELECT count(*) FROM setting") == 2);
        CHECK(database.number("PRAGMA foreign_keys") == 1);
    }
    REQUIRE(std::filesystem::exists(scratch / "l.db.backup-1"));
    const library::Library older = library::Library::open_existing(scratch / "l.db.backup-1");
    CHECK(sample::all_settings(older).size() == 2);
    CHECK(sample::id_titled(older, "Rope") == 2);
}

TEST_CASE("migrate: a step that fails half way changes nothing", "[library][migrate]") {
    const support::Scratch scratch;
    make_library_of_two(scratch / "l.db");
    const auto steps = with_next("ALTER TABLE tune ADD COLUMN note TEXT; INSERT INTO no_such_table VALUES (1);");
    {
        const Database database(scratch / "l.db", Access::write);
        CHECK_THROWS_WITH(library::migrate(database, steps), Catch::Contains("no_such_table"));
        CHECK(database.number("PRAGMA user_version") == newest());
        CHECK(database.number("SELECT count(*) FROM pragma_table_info('tune') WHERE name = 'note'") == 0);
        CHECK_FALSE(std::filesystem::exists(scratch / "l.db.backup-1"));  // it would push out an older one
    }
    CHECK(sample::all_settings(library::Library::open_existing(scratch / "l.db")).size() == 2);
}

TEST_CASE("migrate: what goes wrong at any place leaves an old library as it was", "[library][migrate]") {
    for (int version = 1; version < newest(); ++version) {
        CAPTURE(version);
        const support::Scratch scratch;
        make_library_of_version(scratch / "l.db", version);
        const std::string before = scratch.read("l.db");
        int tries = 0;
        bool is_done = false;
        for (int instructions = 20; !is_done; instructions = instructions * 3 / 2) {
            const Database database(scratch / "l.db", Access::write);
            sqlite3_progress_handler(
                database.handle(), instructions, [](void*) { return 1; }, nullptr);
            try {
                library::migrate(database);
                is_done = true;
            } catch (const base::Failure&) {
                ++tries;
                sqlite3_progress_handler(database.handle(), 0, nullptr, nullptr);
                CHECK(scratch.read("l.db") == before);
                CHECK_FALSE(std::filesystem::exists(scratch / "l.db.backup-1"));
            }
        }
        CHECK(tries >= 3);
        CHECK(library::faults_of_journal(scratch / "l.db").empty());
    }
}

TEST_CASE("migrate: a step that leaves rows pointing nowhere changes nothing", "[library][migrate]") {
    const support::Scratch scratch;
    make_library_of_two(scratch / "l.db");
    const Database database(scratch / "l.db", Access::write);
    CHECK_THROWS_WITH(library::migrate(database, with_next("DELETE FROM tune WHERE id = 1;")),
                      Catch::Contains("point nowhere"));
    CHECK(database.number("SELECT count(*) FROM tune") == 2);
    CHECK(database.number("PRAGMA user_version") == newest());
}

TEST_CASE("migrate: a library of a newer gamut is refused in one sentence", "[library][migrate]") {
    const support::Scratch scratch;
    make_library_of_two(scratch / "l.db");
    {
        const Database database(scratch / "l.db", Access::write);
        database.exec("PRAGMA user_version = " + std::to_string(newest() + 4));
        CHECK_THROWS_WITH(library::migrate(database), Catch::Contains("written by a newer gamut"));
        CHECK_THROWS_WITH(library::require_current(database),
                          Catch::Contains("version " + std::to_string(newest() + 4)));
    }
    CHECK_THROWS_AS(library::Intake::open(scratch / "l.db"), base::Failure);
    CHECK_THROWS_AS(library::Library::open_existing(scratch / "l.db"), base::Failure);
}

TEST_CASE("migrate: what is no library is refused and left as it is", "[library][migrate]") {
    const support::Scratch scratch;
    const std::string text(5000, 'x');
    scratch.write("letter.txt", text);
    CHECK_THROWS_WITH(library::Intake::open(scratch / "letter.txt"), Catch::Contains("is not a gamut library"));
    CHECK_THROWS_WITH(library::Library::open_existing(scratch / "letter.txt"),
                      Catch::Contains("is not a gamut library"));
    CHECK(scratch.read("letter.txt") == text);

    {
        const Database other(scratch / "other.db", Access::write);
        other.exec(
            "CREATE TABLE recipe (id INTEGER PRIMARY KEY, name TEXT); PRAGMA application_id = 77; PRAGMA user_version "
            "= 1");
    }
    const std::string other_bytes = scratch.read("other.db");
    CHECK_THROWS_WITH(library::Intake::open(scratch / "other.db"), Catch::Contains("is not a gamut library"));
    CHECK(scratch.read("other.db") == other_bytes);
}
