#include "library/import_lock.h"

#include <catch2/catch.hpp>

#include <sys/wait.h>
#include <unistd.h>

#include <memory>

#include "base/failure.h"
#include "library/intake.h"
#include "sample.h"
#include "support/scratch.h"

TEST_CASE("import lock: the second is told at once, and may when the first has ended", "[library][lock]") {
    const support::Scratch scratch;
    const auto file = scratch / "deep/er/l.db";
    auto first = std::make_unique<library::ImportLock>(file);
    CHECK_THROWS_WITH(library::ImportLock(file), Catch::Contains("another import is writing to " + file.string()));
    first.reset();
    CHECK_NOTHROW(library::ImportLock(file));
}

TEST_CASE("import lock: two imports at once, from two processes", "[library][lock]") {
    const support::Scratch scratch;
    const auto file = scratch / "l.db";
    library::Intake first = library::Intake::open(file);
    first.store_file(sample::file("/tunes/a.abc", {sample::setting("1", "Lamp", 11)}));
    const pid_t child = ::fork();
    if (child == 0) {
        try {
            const library::Intake second = library::Intake::open(file);
            ::_exit(1);
        } catch (const base::Failure& failure) {
            ::_exit(std::string_view(failure.what()).find("another import is writing") != std::string_view::npos ? 0
                                                                                                                 : 2);
        }
    }
    int status = -1;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    // The one that was refused has not disturbed the first: a closed descriptor must not drop its locks.
    first.store_file(sample::file("/tunes/b.abc", {sample::setting("1", "Rope", 22)}));
    first.close();
    CHECK(sample::all_settings(library::Library::open_existing(file)).size() == 2);
}

TEST_CASE("import lock: a folder that cannot be made is a failure", "[library][lock]") {
    const support::Scratch scratch;
    scratch.write("plain", "x");
    CHECK_THROWS_AS(library::ImportLock(scratch / "plain/l.db"), base::Failure);
    CHECK_THROWS_AS(library::ImportLock(scratch.path()), base::Failure);
}
