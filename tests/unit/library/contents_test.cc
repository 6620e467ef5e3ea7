#include <catch2/catch.hpp>

#include "library/database.h"
#include "library/intake.h"
#include "library/library.h"
#include "sample.h"
#include "support/scratch.h"

TEST_CASE("contents: a setting's ABC with and without a file header", "[library][query]") {
    const support::Scratch scratch;
    library::Intake intake = library::Intake::open(scratch / "l.db");
    const auto lamp = sample::setting("1", "Lamp", 11);
    intake.store_file(sample::file("/t/a.abc", {lamp, sample::setting("2", "Rope", 22)}, "%abc\nM:6/8"));
    intake.store_file(sample::file("/t/b.abc", {sample::setting("1", "Net", 33)}));
    intake.close();
    const library::Library library = library::Library::open_existing(scratch / "l.db");
    const auto abc = library.abc_of({1});
    REQUIRE(abc);
    CHECK(abc->text == "%abc\nM:6/8\n\n" + lamp.abc);
    CHECK(abc->file == "a.abc");
    CHECK(abc->line == 1);
    CHECK_FALSE(abc->gone);
    CHECK(library.abc_of({2})->line == 11);
    CHECK(library.abc_of({3})->text.starts_with("X:1\n"));
    CHECK_FALSE(library.abc_of({4}));
    // Two settings of one file share its header.
    CHECK(library::Database(scratch / "l.db", library::Access::read).number("SELECT count(*) FROM abc_header") == 1);
}

TEST_CASE("contents: equal note sets are kept once", "[library][query]") {
    const support::Scratch scratch;
    library::Intake intake = library::Intake::open(scratch / "l.db");
    intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Lamp", 11), sample::setting("2", "Rope", 22)}));
    intake.close();
    library::Intake again = library::Intake::open(scratch / "l.db");
    again.store_file(sample::file("/t/b.abc", {sample::setting("1", "Net", 33)}));
    again.close();
    // The one they share, and the empty one of their ornaments.
    CHECK(library::Database(scratch / "l.db", library::Access::read).number("SELECT count(*) FROM note_set") == 2);
}

TEST_CASE("contents: counts", "[library][query]") {
    const support::Scratch scratch;
    library::Intake intake = library::Intake::open(scratch / "l.db");
    intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Lamp", 11), sample::setting("2", "Rope", 22)}));
    intake.store_file(sample::file("/t/b.abc", {sample::setting("1", "Net", 33)}));
    const std::vector<library::FileId> second{{2}};
    intake.set_vanished(second);
    intake.mark_gone(second);
    const collection::Counts counts = library::Library::open_existing(scratch / "l.db").counts();
    CHECK(counts.files == 1);
    CHECK(counts.tunes == 2);
    CHECK(counts.settings == 2);
    CHECK(counts.files_gone == 1);
    CHECK(counts.settings_gone == 1);
}
