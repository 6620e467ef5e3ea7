#include "library/backup.h"

#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>
#include <catch2/catch.hpp>
#include <fstream>

#include "base/failure.h"
#include "library/database.h"
#include "library/intake.h"
#include "library/library.h"
#include "library/marks.h"
#include "sample.h"
#include "support/scratch.h"

namespace {

namespace fs = std::filesystem;

void make_library(const fs::path& file, const std::string& title = "Lamp") {
    library::Intake intake = library::Intake::open(file);
    std::vector<collection::StoredSetting> settings;
    for (int number = 1; number <= 40; ++number)
        settings.push_back(sample::setting(std::to_string(number), title + " " + std::to_string(number),
                                           static_cast<std::uint64_t>(number)));
    intake.store_file(sample::file("/tunes/a.abc", std::move(settings)));
    intake.close();
}

void tag(const fs::path& file, std::int64_t tune, const std::string& word) {
    library::Marks marks = library::Marks::change(file);
    marks.add_tag({tune}, tune::read_tag(word));
    marks.commit();
}

std::vector<std::string> tags_of(const fs::path& file, std::int64_t tune) {
    return library::Library::open_existing(file).tune_by_id({tune})->tags;
}

void overwrite(const fs::path& file, std::streamoff at, const std::string& bytes) {
    std::fstream stream(file, std::ios::in | std::ios::out | std::ios::binary);
    stream.seekp(at);
    stream << bytes;
}

std::size_t files_in(const support::Scratch& scratch) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(scratch.path()), {}));
}

}  // namespace

TEST_CASE("backup: a copy is a library with all that is in it, its owner's alone", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    tag(scratch / "l.db", 3, "wedding");
    const auto bytes = library::back_up(scratch / "l.db", scratch / "copy.db");
    CHECK(bytes == fs::file_size(scratch / "copy.db"));
    CHECK(sample::all_settings(library::Library::open_existing(scratch / "copy.db")).size() == 40);
    CHECK(tags_of(scratch / "copy.db", 3) == std::vector<std::string>{"wedding"});
    struct stat status {};
    REQUIRE(::stat((scratch / "copy.db").c_str(), &status) == 0);
    CHECK((status.st_mode & 0777) == 0600);
    CHECK(files_in(scratch) == 2);
}

TEST_CASE("backup: never takes the place of a file, nor follows a link", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    scratch.write("mine", "my words");
    fs::create_symlink("mine", scratch / "link");
    for (const char* name : {"mine", "link", "l.db"})
        CHECK_THROWS_WITH(library::back_up(scratch / "l.db", scratch / name), Catch::Contains("is there already"));
    CHECK(scratch.read("mine") == "my words");
    CHECK_THROWS_AS(library::back_up(scratch / "l.db", scratch / "absent/copy.db"), base::Failure);
    CHECK(files_in(scratch) == 3);
}

TEST_CASE("backup: while an import is running, what was answered is in it", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    library::Intake importing = library::Intake::open(scratch / "l.db");
    importing.store_file(sample::file("/tunes/b.abc", {sample::setting("1", "Rope", 99)}));
    tag(scratch / "l.db", 3, "wedding");
    library::back_up(scratch / "l.db", scratch / "copy.db");
    CHECK(tags_of(scratch / "copy.db", 3) == std::vector<std::string>{"wedding"});
    CHECK(sample::all_settings(library::Library::open_existing(scratch / "copy.db")).size() == 41);
    CHECK_FALSE(fs::exists(scratch / "copy.db-wal"));
    importing.close();
}

TEST_CASE("backup: a copy of the file alone has what was said while an import was running", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    library::Intake importing = library::Intake::open(scratch / "l.db");
    importing.store_file(sample::file("/tunes/b.abc", {sample::setting("1", "Rope", 99)}));
    tag(scratch / "l.db", 3, "wedding");
    fs::copy_file(scratch / "l.db", scratch / "copy.db");
    CHECK(tags_of(scratch / "copy.db", 3) == std::vector<std::string>{"wedding"});
    importing.close();
}

TEST_CASE("backup: whoever comes after an import that was killed leaves one file", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    const pid_t child = ::fork();
    if (child == 0) {
        library::Intake importing = library::Intake::open(scratch / "l.db");
        importing.store_file(sample::file("/tunes/b.abc", {sample::setting("1", "Rope", 99)}));
        ::_exit(0);
    }
    REQUIRE(::waitpid(child, nullptr, 0) == child);
    REQUIRE(fs::exists(scratch / "l.db-wal"));
    library::Library::open_existing(scratch / "l.db");
    CHECK(files_in(scratch) == 1);
    fs::copy_file(scratch / "l.db", scratch / "copy.db");
    CHECK(sample::all_settings(library::Library::open_existing(scratch / "copy.db")).size() == 41);
}

TEST_CASE("backup: a damaged library is told, and no backup is left behind", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    overwrite(scratch / "l.db", 4096 * 20, std::string(4096, '\x55'));
    CHECK_THROWS_WITH(library::back_up(scratch / "l.db", scratch / "copy.db"), Catch::Contains("damaged"));
    CHECK(files_in(scratch) == 1);
}

TEST_CASE("restore: the library becomes what the backup holds, and what was there is kept", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    tag(scratch / "l.db", 3, "wedding");
    library::back_up(scratch / "l.db", scratch / "copy.db");
    tag(scratch / "l.db", 3, "harvest");
    const auto kept = library::restore(scratch / "l.db", scratch / "copy.db");
    REQUIRE(kept);
    CHECK(*kept == scratch / "l.db.backup-1");
    CHECK(tags_of(scratch / "l.db", 3) == std::vector<std::string>{"wedding"});
    CHECK(tags_of(*kept, 3) == std::vector<std::string>{"harvest", "wedding"});
    CHECK_FALSE(library::restore(scratch / "new.db", scratch / "copy.db"));
    CHECK(tags_of(scratch / "new.db", 3) == std::vector<std::string>{"wedding"});
}

TEST_CASE("restore: the last five backups stay", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    library::back_up(scratch / "l.db", scratch / "copy.db");
    for (int round = 0; round < 7; ++round) library::restore(scratch / "l.db", scratch / "copy.db");
    const std::vector<fs::path> backups = library::backups_of(scratch / "l.db");
    REQUIRE(backups.size() == library::kBackupsKept);
    CHECK(backups.front() == scratch / "l.db.backup-3");
    CHECK(backups.back() == scratch / "l.db.backup-7");
}

TEST_CASE("restore: into what SQLite cannot open at all, and out of it again byte by byte", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    library::back_up(scratch / "l.db", scratch / "copy.db");
    overwrite(scratch / "l.db", 0, std::string(200, 'x'));
    scratch.write("l.db-journal", "of the old one");
    const std::string damaged = scratch.read("l.db");
    const auto kept = library::restore(scratch / "l.db", scratch / "copy.db");
    REQUIRE(kept);
    CHECK(scratch.read(kept->filename().string()) == damaged);
    CHECK_FALSE(fs::exists(scratch / "l.db-journal"));
    CHECK(sample::all_settings(library::Library::open_existing(scratch / "l.db")).size() == 40);

    scratch.write("l.db", "");
    CHECK(library::restore(scratch / "l.db", scratch / "copy.db"));
    CHECK(sample::all_settings(library::Library::open_existing(scratch / "l.db")).size() == 40);
}

TEST_CASE("restore: from what is no sound library nothing is done", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    library::back_up(scratch / "l.db", scratch / "damaged.db");
    overwrite(scratch / "damaged.db", 4096 * 20, std::string(4096, '\x55'));
    scratch.write("text", "dear diary, this is no library");
    CHECK_THROWS_WITH(library::restore(scratch / "l.db", scratch / "damaged.db"), Catch::Contains("damaged"));
    CHECK_THROWS_WITH(library::restore(scratch / "l.db", scratch / "text"), Catch::Contains("not a gamut library"));
    CHECK_THROWS_AS(library::restore(scratch / "l.db", scratch / "absent"), base::Failure);
    CHECK_THROWS_WITH(library::restore(scratch / "l.db", scratch / "l.db"), Catch::Contains("the library itself"));
    CHECK(library::backups_of(scratch / "l.db").empty());
    CHECK(sample::all_settings(library::Library::open_existing(scratch / "l.db")).size() == 40);
}

TEST_CASE("restore: not while an import is writing", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    library::back_up(scratch / "l.db", scratch / "copy.db");
    library::Intake importing = library::Intake::open(scratch / "l.db");
    CHECK_THROWS_WITH(library::restore(scratch / "l.db", scratch / "copy.db"), Catch::Contains("another import"));
    importing.close();
}

TEST_CASE("compact: the same library in less room", "[library][backup]") {
    const support::Scratch scratch;
    make_library(scratch / "l.db");
    {
        const library::Database database(scratch / "l.db", library::Access::write);
        database.exec(
            "CREATE TABLE t (b); WITH RECURSIVE n (i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n LIMIT 500)"
            " INSERT INTO t SELECT zeroblob(1000) FROM n; DROP TABLE t");
    }
    const library::Sizes sizes = library::compact(scratch / "l.db");
    CHECK(sizes.after < sizes.before - 400'000);
    CHECK(sizes.after == fs::file_size(scratch / "l.db"));
    CHECK(sample::all_settings(library::Library::open_existing(scratch / "l.db")).size() == 40);
    CHECK(library::Library::open_existing(scratch / "l.db").tunes_titled("lamp 7").size() == 1);
}
