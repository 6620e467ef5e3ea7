#include <catch2/catch.hpp>

#include "library/database.h"
#include "library/intake.h"
#include "library/library.h"
#include "sample.h"
#include "support/scratch.h"

using tune::TuneId;

TEST_CASE("tunes by id: in the order asked, unknown ones left out", "[library][query]") {
    const support::Scratch scratch;
    library::Intake intake = library::Intake::open(scratch / "l.db");
    intake.store_file(sample::file(
        "/t/a.abc", {sample::setting("1", "Lamp", 11), sample::setting("2", "", 22), sample::setting("3", "Net", 33)}));
    const library::Library library = library::Library::open_existing(scratch / "l.db");
    const std::vector<TuneId> asked{{3}, {99}, {1}, {2}, {3}};
    const auto records = library.tunes_by_id(asked);
    REQUIRE(records.size() == 4);
    CHECK(records[0].titles.front() == "Net");
    CHECK(records[1].titles.front() == "Lamp");
    CHECK(records[2].titles.empty());
    CHECK(records[3] == records[0]);
    const std::vector<tune::SettingId> settings{{3}, {99}, {1}, {2}, {3}};
    CHECK(library.first_titles(settings) == std::vector<std::string>{"Net", "", "Lamp", "", "Net"});
    CHECK(library.own_ids(settings) == std::vector<TuneId>{{3}, {0}, {1}, {2}, {3}});
    CHECK_FALSE(library.tune_by_id({0}));
    CHECK(library.settings_of({99}).empty());
}

TEST_CASE("tunes by id: of several settings one that is not gone", "[library][query]") {
    const support::Scratch scratch;
    library::Intake intake = library::Intake::open(scratch / "l.db");
    intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Old Lamp", 11)}));
    intake.store_file(sample::file("/t/b.abc", {sample::setting("1", "New Lamp", 22)}));
    intake.store_file(sample::file("/t/a.abc", {}));
    intake.close();
    {
        const library::Database database(scratch / "l.db", library::Access::write);
        database.exec("UPDATE setting SET tune_id = 1");
    }
    const library::Library library = library::Library::open_existing(scratch / "l.db");
    CHECK(library.tune_by_id({1})->titles.front() == "New Lamp");
    CHECK(library.settings_of({1}).size() == 1);
    CHECK_FALSE(library.tune_by_id({2}));
    CHECK(library.select_tunes({}).gone == 0);  // the tune is still there by its other setting
}

TEST_CASE("setting kinds: rhythm and key of what is present, ascending by id", "[library][query]") {
    const support::Scratch scratch;
    library::Intake intake = library::Intake::open(scratch / "l.db");
    auto jig = sample::setting("1", "Lamp", 11);
    jig.facts.rhythm = tune::Finding<std::string>{"jig", tune::Basis::stated};
    auto keyless = sample::setting("2", "Rope", 22);
    keyless.facts.key.reset();
    intake.store_file(sample::file("/t/a.abc", {jig, keyless}));
    const library::Library library = library::Library::open_existing(scratch / "l.db");
    CHECK(library.setting_kinds() == std::vector<collection::SettingKind>{{{1}, "jig", "G major"}, {{2}, "", ""}});
}
