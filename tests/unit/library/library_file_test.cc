#include "library/library_file.h"

#include <sys/stat.h>
#include <unistd.h>
#include <catch2/catch.hpp>

#include "base/failure.h"
#include "library/intake.h"
#include "library/library.h"
#include "library/marks.h"
#include "support/scratch.h"

namespace {

mode_t rights_of(const std::filesystem::path& path) {
    struct stat status {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    return status.st_mode & 07777;
}

}  // namespace

TEST_CASE("library file: what is no ordinary file is told and left alone", "[library][file]") {
    const support::Scratch scratch;
    REQUIRE(::mkfifo((scratch / "pipe").c_str(), 0600) == 0);
    scratch.write("empty", "");
    scratch.write("one", "x");
    std::filesystem::create_symlink("absent", scratch / "nowhere");
    std::filesystem::create_directory(scratch / "folder");
    const auto refused = [&](const char* name, const char* words) {
        CAPTURE(name);
        CHECK_THROWS_WITH(library::Intake::open(scratch / name), Catch::Contains(words));
        CHECK_THROWS_AS(library::Library::open_existing(scratch / name), base::Failure);
        CHECK_THROWS_AS(library::Marks::change(scratch / name), base::Failure);
    };
    refused("pipe", "it is a pipe or a device");
    refused("empty", "there is nothing in it");
    refused("one", "there is nothing in it");
    refused("folder", "it is a folder");
    refused("nowhere", "a link that leads nowhere");
    CHECK(scratch.read("empty").empty());
    CHECK(scratch.read("one") == "x");
    CHECK_FALSE(std::filesystem::exists(scratch / "absent"));
    CHECK_THROWS_WITH(library::Intake::open("/dev/null"), Catch::Contains("a pipe or a device"));
}

TEST_CASE("library file: a new library and its folders are its owner's alone", "[library][file]") {
    const support::Scratch scratch;
    const mode_t before = ::umask(0);
    library::Intake::open(scratch / "a/b/l.db").close();
    ::umask(before);
    CHECK(rights_of(scratch / "a") == 0700);
    CHECK(rights_of(scratch / "a/b") == 0700);
    CHECK(rights_of(scratch / "a/b/l.db") == 0600);
    CHECK(std::distance(std::filesystem::directory_iterator(scratch / "a/b"), {}) == 1);  // nothing unfinished is left
}

TEST_CASE("library file: names that SQLite reads in a way of its own are names", "[library][file]") {
    const support::Scratch scratch;
    const auto here = std::filesystem::current_path();
    std::filesystem::current_path(scratch.path());
    library::Intake::open(":memory:").close();
    library::Intake::open("file:x?mode=memory").close();
    std::filesystem::current_path(here);
    CHECK(std::filesystem::exists(scratch / ":memory:"));
    CHECK(std::filesystem::exists(scratch / "file:x?mode=memory"));
}

TEST_CASE("library file: an unfinished file takes no name that is taken", "[library][file]") {
    const support::Scratch scratch;
    scratch.write("there", "mine");
    {
        library::UnfinishedFile made(scratch / "there");
        CHECK(rights_of(made.path()) == 0600);
        CHECK_FALSE(made.take_name());
    }
    CHECK(scratch.read("there") == "mine");
    std::filesystem::create_symlink("elsewhere", scratch / "link");
    {
        library::UnfinishedFile made(scratch / "link");
        CHECK_FALSE(made.take_name());
    }
    CHECK_FALSE(std::filesystem::exists(scratch / "elsewhere"));
    library::UnfinishedFile made(scratch / "new");
    CHECK(made.take_name());
    CHECK(std::distance(std::filesystem::directory_iterator(scratch.path()), {}) == 3);
}
