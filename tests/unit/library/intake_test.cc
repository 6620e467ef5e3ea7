// Files known, touched and gone; the library at rest; and imports that are stopped.
#include "library/intake.h"

#include <sqlite3.h>
#include <catch2/catch.hpp>

#include <sys/wait.h>
#include <unistd.h>

#include "base/failure.h"
#include "library/database.h"
#include "library/library.h"
#include "sample.h"
#include "support/scratch.h"

using library::Intake;
using library::Library;
using sample::setting;

namespace {

// Stops SQLite at the n-th instruction of its machine on any connection opened meanwhile: by an interrupt, or by ending
// the process as a crash would.
int instructions_left = 0;
bool ends_process = false;

int count_down(void*) {
    if (--instructions_left > 0) return 0;
    if (ends_process) ::_exit(77);
    return 1;
}

int watch(sqlite3* connection, const char**, const sqlite3_api_routines*) {
    sqlite3_progress_handler(connection, 1, count_down, nullptr);
    return SQLITE_OK;
}

class StopAt {
public:
    explicit StopAt(int instructions) {
        instructions_left = instructions;
        sqlite3_auto_extension(reinterpret_cast<void (*)()>(watch));
    }
    ~StopAt() { sqlite3_cancel_auto_extension(reinterpret_cast<void (*)()>(watch)); }
    StopAt(const StopAt&) = delete;
    StopAt& operator=(const StopAt&) = delete;
};

collection::StoredFile before() {
    auto file = sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Rope", 22), setting("3", "Net", 33)},
                             "L:1/8");
    file.diagnostics = {{1, 1, base::Severity::warning, "abc-x", "odd"}};
    return file;
}

collection::StoredFile after() {
    auto file = sample::file(
        "/t/a.abc", {setting("2", "Long Rope", 22), setting("1", "Lamp", 12), setting("4", "Oar", 44)}, "L:1/4");
    file.settings[1].facts.needed = sample::notes({60, 61});
    return file;
}

// All a reader can see of it.
std::string seen(const std::filesystem::path& file) {
    const Library library = Library::open_existing(file);
    std::string text;
    for (std::int64_t id = 1; id <= 5; ++id) {
        const auto record = library.tune_by_id({id});
        if (!record) continue;
        const auto abc = library.abc_of(record->setting);
        text += std::to_string(id) + (abc->gone ? " gone " : " ") + record->titles.front() + " " +
                std::to_string(record->needed.size()) + " line " + std::to_string(record->line) + " " + abc->text;
    }
    for (const char* word : {"lamp", "rope", "long", "net", "oar"}) {
        collection::Selection words;
        words.title = word;
        text += std::string(word) + std::to_string(library.select_tunes(words).matched) + " ";
    }
    return text + std::to_string(library.diagnostics().size());
}

bool is_sound(const std::filesystem::path& file) {
    const library::Database database(file, library::Access::write);
    return database.text("PRAGMA integrity_check") == "ok" &&
           database.number("SELECT count(*) FROM pragma_foreign_key_check") == 0 &&
           database.number(
               "SELECT count(*) FROM setting s WHERE NOT EXISTS (SELECT 1 FROM abc WHERE setting_id = s.id)") == 0;
}

}  // namespace

TEST_CASE("intake: knows its files by path, with their times", "[library][intake]") {
    const support::Scratch scratch;
    Intake intake = Intake::open(scratch / "l.db");
    intake.store_file(sample::file("/t/b.abc", {setting("1", "Lamp", 11)}));
    intake.store_file(sample::file("/t/a.abc", {}));
    auto known = intake.known_files();
    REQUIRE(known.size() == 2);
    CHECK(known[0].path == "/t/a.abc");
    CHECK(known[0].settings == 0);
    CHECK(known[0].facts_are_current);
    CHECK(known[1].settings == 1);
    CHECK(known[1].size == 100);
    CHECK(known[1].mtime_ns == 1'000'000'000);
    CHECK(known[1].imported_ns == 9'000'000'000);
    CHECK(known[1].content_hash.size() == 32);
    intake.touch_files(std::vector<Intake::Touch>{{known[1].id, 5, 6}});
    known = intake.known_files();
    CHECK(known[1].mtime_ns == 5);
    CHECK(known[1].imported_ns == 6);
}

TEST_CASE("intake: a library at rest is one file that needs no other to be read", "[library][intake]") {
    const support::Scratch scratch;
    {
        Intake intake = Intake::open(scratch / "l.db");
        intake.store_file(before());
        CHECK(std::filesystem::exists(scratch / "l.db-wal"));
        intake.close();
    }
    CHECK_FALSE(std::filesystem::exists(scratch / "l.db-wal"));
    CHECK_FALSE(std::filesystem::exists(scratch / "l.db-shm"));
    // The 19th and 20th byte say how it is written: 1 is with a rollback journal. Source: sqlite.org/fileformat2.html,
    // section 1.3.
    const std::string bytes = scratch.read("l.db");
    CHECK(bytes.at(18) == 1);
    CHECK(bytes.at(19) == 1);
}

TEST_CASE("intake: reads from a folder that cannot be written", "[library][intake]") {
    const support::Unprivileged unprivileged;
    if (!support::Unprivileged::holds()) {
        WARN("not tried: the superuser may write everywhere");
        return;
    }
    const support::Scratch scratch;
    std::filesystem::create_directory(scratch / "shared");
    {
        Intake intake = Intake::open(scratch / "shared/l.db");
        intake.store_file(before());
        intake.close();
    }
    std::filesystem::permissions(scratch / "shared",
                                 std::filesystem::perms::owner_read | std::filesystem::perms::owner_exec);
    CHECK(sample::all_settings(Library::open_existing(scratch / "shared/l.db")).size() == 3);
    CHECK_THROWS_AS(Intake::open(scratch / "shared/other.db"), base::Failure);
    std::filesystem::permissions(scratch / "shared", std::filesystem::perms::owner_all);
}

TEST_CASE("intake: a reader sees one state while an import goes on, and does not stop it", "[library][intake]") {
    const support::Scratch scratch;
    Intake intake = Intake::open(scratch / "l.db");
    intake.store_file(before());
    const Library reader = Library::open_existing(scratch / "l.db");
    CHECK(reader.counts().settings == 3);
    intake.store_file(sample::file("/t/b.abc", {setting("1", "Oar", 44)}));
    CHECK(reader.counts().settings == 3);
    CHECK(Library::open_existing(scratch / "l.db").counts().settings == 4);
}

TEST_CASE("intake: ids do not depend on what was stopped before", "[library][intake]") {
    const support::Scratch scratch;
    Intake intake = Intake::open(scratch / "l.db");
    auto bad = before();
    bad.settings.back().facts.first_note = 500;  // refused by the table, after two settings went in
    CHECK_THROWS_WITH(intake.store_file(bad), Catch::Contains("CHECK constraint failed"));
    CHECK(intake.known_files().empty());
    intake.store_file(before());
    intake.close();
    CHECK(sample::id_titled(Library::open_existing(scratch / "l.db"), "Lamp") == 1);
    CHECK(is_sound(scratch / "l.db"));
}

TEST_CASE("intake: stopped anywhere, the file is in as it was or as it is, never half", "[library][intake][stop]") {
    const support::Scratch scratch;
    std::string old_state;
    std::string new_state;
    {
        Intake intake = Intake::open(scratch / "old.db");
        intake.store_file(before());
        intake.close();
        old_state = seen(scratch / "old.db");
        std::filesystem::copy_file(scratch / "old.db", scratch / "new.db");
        Intake again = Intake::open(scratch / "new.db");
        again.store_file(after());
        again.close();
        new_state = seen(scratch / "new.db");
    }
    REQUIRE(old_state != new_state);

    const auto file = scratch / "try.db";
    int stopped_old = 0;
    int stopped_new = 0;
    bool reached_end = false;
    for (int at = 1; !reached_end && at < 100'000; at += 13) {
        std::filesystem::copy_file(scratch / "old.db", file, std::filesystem::copy_options::overwrite_existing);
        {
            const StopAt stop(at);
            try {
                Intake intake = Intake::open(file);
                intake.store_file(after());
                intake.close();
                reached_end = instructions_left > 0;
            } catch (const base::Failure&) {
            }
        }
        const std::string state = seen(file);
        REQUIRE((state == old_state || state == new_state));
        ++(state == old_state ? stopped_old : stopped_new);
        REQUIRE(is_sound(file));
        std::filesystem::remove(file);
    }
    CHECK(reached_end);
    CHECK(stopped_old > 20);
    CHECK(stopped_new > 0);
}

TEST_CASE("intake: killed anywhere, the next one finds it as it was or as it is", "[library][intake][stop]") {
    const support::Scratch scratch;
    {
        Intake intake = Intake::open(scratch / "old.db");
        intake.store_file(before());
        intake.close();
    }
    const std::string old_state = seen(scratch / "old.db");
    const auto file = scratch / "try.db";
    int killed = 0;
    int ended = 0;
    std::string new_state;
    for (int at = 40; ended == 0 && at < 100'000; at += 97) {
        std::filesystem::copy_file(scratch / "old.db", file, std::filesystem::copy_options::overwrite_existing);
        const pid_t child = ::fork();
        if (child == 0) {
            ends_process = true;
            const StopAt stop(at);
            Intake intake = Intake::open(file);
            intake.store_file(after());
            ::_exit(0);
        }
        int status = -1;
        REQUIRE(::waitpid(child, &status, 0) == child);
        REQUIRE(WIFEXITED(status));
        REQUIRE((WEXITSTATUS(status) == 77 || WEXITSTATUS(status) == 0));
        ++(WEXITSTATUS(status) == 77 ? killed : ended);
        const std::string state = seen(file);
        if (state != old_state) {
            if (new_state.empty()) new_state = state;
            REQUIRE(state == new_state);
        }
        REQUIRE(is_sound(file));
        Intake again = Intake::open(file);
        again.store_file(after());
        again.close();
        if (!new_state.empty()) REQUIRE(seen(file) == new_state);
        for (const char* name : {"try.db", "try.db-wal", "try.db-shm"}) std::filesystem::remove(scratch / name);
    }
    CHECK(killed > 10);
    CHECK(ended == 1);
    CHECK_FALSE(new_state.empty());
}

TEST_CASE("intake: stopped while a new library is made, another try makes it", "[library][intake][stop]") {
    for (int at = 1; at < 4000; at += 211) {
        const support::Scratch scratch;
        {
            const StopAt stop(at);
            try {
                Intake::open(scratch / "l.db").close();
            } catch (const base::Failure&) {
            }
        }
        Intake intake = Intake::open(scratch / "l.db");
        intake.store_file(before());
        intake.close();
        REQUIRE(Library::open_existing(scratch / "l.db").counts().settings == 3);
    }
}
