#include "library/marks.h"

#include <catch2/catch.hpp>

#include "base/failure.h"
#include "library/database.h"
#include "library/intake.h"
#include "library/library.h"
#include "sample.h"
#include "support/scratch.h"

using collection::TuneMark;
using library::Library;
using library::Marks;
using tune::read_tag;

namespace {

using Tags = std::vector<std::string>;

// A library of three tunes.
struct MarkedShelf {
    support::Scratch scratch;
    std::filesystem::path file = scratch / "l.db";

    MarkedShelf() {
        library::Intake intake = library::Intake::open(file);
        intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Lamp", 11), sample::setting("2", "Rope", 22),
                                                    sample::setting("3", "Net", 33)}));
        intake.close();
    }
    Library read() const { return Library::open_existing(file); }
    Tags tags(std::int64_t id) const { return read().tune_by_id({id})->tags; }
    std::optional<std::int64_t> count(std::int64_t id) const { return read().tune_by_id({id})->count; }
    std::int64_t tagged(const std::string& tag) const {
        collection::Selection selection;
        selection.tag = tag;
        return read().select_tunes(selection).matched;
    }
    template <typename Write>
    void change(Write write) const {
        Marks marks = Marks::change(file);
        write(marks);
        marks.commit();
    }
};

}  // namespace

TEST_CASE("marks: none to begin with", "[library][marks]") {
    const MarkedShelf shelf;
    CHECK(shelf.tags(1).empty());
    CHECK_FALSE(shelf.count(1));
    CHECK(shelf.read().marks().empty());
    CHECK(shelf.tagged("wedding") == 0);
}

TEST_CASE("marks: tags are given and taken, in alphabetical order", "[library][marks]") {
    const MarkedShelf shelf;
    shelf.change([](Marks& marks) {
        marks.add_tag({1}, read_tag("wedding"));
        marks.add_tag({1}, read_tag("Thursday"));
        marks.add_tag({1}, read_tag("\xC3\x89toile"));
        marks.add_tag({3}, read_tag("wedding"));
    });
    CHECK(shelf.tags(1) == Tags{"\xC3\x89toile", "Thursday", "wedding"});
    CHECK(shelf.tags(2).empty());
    CHECK(shelf.tagged("wedding") == 2);
    shelf.change([](Marks& marks) {
        marks.remove_tag({1}, read_tag("WEDDING"));
        marks.remove_tag({2}, read_tag("wedding"));  // it has none
        marks.remove_tag({1}, read_tag("never given"));
    });
    CHECK(shelf.tags(1) == Tags{"\xC3\x89toile", "Thursday"});
    CHECK(shelf.tags(3) == Tags{"wedding"});
}

TEST_CASE("marks: a tag is shown as first written, until no tune has it", "[library][marks]") {
    const MarkedShelf shelf;
    shelf.change([](Marks& marks) {
        marks.add_tag({1}, read_tag("Wedding"));
        marks.add_tag({1}, read_tag("wedding"));
        marks.add_tag({2}, read_tag("WEDDING"));
    });
    CHECK(shelf.tags(1) == Tags{"Wedding"});
    CHECK(shelf.tags(2) == Tags{"Wedding"});
    shelf.change([](Marks& marks) { marks.remove_tag({1}, read_tag("wedding")); });
    CHECK(shelf.tags(2) == Tags{"Wedding"});
    shelf.change([](Marks& marks) { marks.remove_tag({2}, read_tag("wedding")); });
    shelf.change([](Marks& marks) { marks.add_tag({3}, read_tag("wedding")); });
    CHECK(shelf.tags(3) == Tags{"wedding"});
}

TEST_CASE("marks: a count of 0 is not the same as none", "[library][marks]") {
    const MarkedShelf shelf;
    shelf.change([](Marks& marks) {
        marks.set_count({1}, 0);
        marks.set_count({2}, 9'000'000'000);
    });
    CHECK(shelf.count(1) == 0);
    CHECK(shelf.count(2) == 9'000'000'000);
    shelf.change([](Marks& marks) {
        marks.set_count({1}, 5);
        marks.set_count({2}, std::nullopt);
        marks.set_count({3}, std::nullopt);
    });
    CHECK(shelf.count(1) == 5);
    CHECK_FALSE(shelf.count(2));
    CHECK(shelf.read().marks() == std::vector<TuneMark>{{{1}, 5, {}}});
}

TEST_CASE("marks: all of them, folded and by id", "[library][marks]") {
    const MarkedShelf shelf;
    shelf.change([](Marks& marks) {
        marks.add_tag({3}, read_tag("Wedding"));
        marks.add_tag({3}, read_tag("F\xC3\xAAte"));
        marks.set_count({3}, 2);
        marks.add_tag({1}, read_tag("Thursday"));
        marks.set_count({2}, 0);
    });
    CHECK(shelf.read().marks() ==
          std::vector<TuneMark>{{{1}, std::nullopt, {"thursday"}}, {{2}, 0, {}}, {{3}, 2, {"fete", "wedding"}}});
}

TEST_CASE("marks: of a tune that is gone they are kept", "[library][marks]") {
    const MarkedShelf shelf;
    shelf.change([](Marks& marks) {
        marks.add_tag({2}, read_tag("wedding"));
        marks.set_count({2}, 3);
    });
    {
        library::Intake intake = library::Intake::open(shelf.file);
        intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Lamp", 11)}));
        intake.close();
    }
    CHECK(shelf.tagged("wedding") == 0);
    CHECK(shelf.tags(2) == Tags{"wedding"});
    CHECK(shelf.read().marks() == std::vector<TuneMark>{{{2}, 3, {"wedding"}}});
}

TEST_CASE("marks: a change that is not committed never was", "[library][marks]") {
    const MarkedShelf shelf;
    {
        Marks marks = Marks::change(shelf.file);
        marks.add_tag({1}, read_tag("wedding"));
        marks.set_count({2}, 3);
    }
    CHECK(shelf.read().marks().empty());
    {
        Marks marks = Marks::change(shelf.file);
        marks.add_tag({1}, read_tag("wedding"));
        CHECK_THROWS_AS(marks.add_tag({99}, read_tag("wedding")), base::Failure);  // no such tune
        CHECK_THROWS_AS(marks.set_count({99}, 1), base::Failure);
    }
    CHECK(shelf.read().marks().empty());
    CHECK(library::Database(shelf.file, library::Access::read).number("SELECT count(*) FROM tag") == 0);
}

TEST_CASE("marks: the tables refuse what is none", "[library][marks]") {
    const MarkedShelf shelf;
    const library::Database database(shelf.file, library::Access::write);
    CHECK_THROWS_AS(database.exec("INSERT INTO tune_count VALUES (1, -1)"), base::Failure);
    CHECK_THROWS_AS(database.exec("INSERT INTO tag (folded, text) VALUES ('', 'x')"), base::Failure);
    CHECK_THROWS_AS(database.exec("INSERT INTO tag (folded, text) VALUES ('x', '')"), base::Failure);
    CHECK_THROWS_AS(database.exec("INSERT INTO tune_tag VALUES (1, 7)"), base::Failure);
}

TEST_CASE("marks: written while an import is at work", "[library][marks]") {
    const MarkedShelf shelf;
    library::Intake intake = library::Intake::open(shelf.file);
    intake.store_file(sample::file("/t/b.abc", {sample::setting("1", "Oar", 44)}));
    shelf.change([](Marks& marks) { marks.set_count({4}, 1); });
    intake.store_file(sample::file("/t/c.abc", {sample::setting("1", "Sail", 55)}));
    intake.close();
    CHECK(shelf.count(4) == 1);
    CHECK(shelf.read().counts().tunes == 5);
}

TEST_CASE("marks: what cannot be written is told in a sentence, and nothing is made", "[library][marks]") {
    const support::Unprivileged unprivileged;
    const support::Scratch scratch;
    CHECK_THROWS_WITH(Marks::change(scratch / "none.db"), Catch::Contains("there is no library yet"));
    CHECK_FALSE(std::filesystem::exists(scratch / "none.db"));
    scratch.write("empty.db", "");
    CHECK_THROWS_WITH(Marks::change(scratch / "empty.db"), Catch::Contains("nothing in it"));
    if (!support::Unprivileged::holds()) {
        WARN("not tried: the superuser may write everywhere");
        return;
    }
    const MarkedShelf shelf;
    namespace fs = std::filesystem;
    fs::permissions(shelf.file, fs::perms::owner_read);
    CHECK_THROWS_WITH(Marks::change(shelf.file),
                      Catch::Contains("could not write to") && Catch::Contains("may only be read"));
}
