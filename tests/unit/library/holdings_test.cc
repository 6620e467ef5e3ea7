#include "library/holdings.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <stdexcept>

#include "library/backup.h"
#include "library/database.h"
#include "library/intake.h"
#include "library/marks.h"
#include "library/players.h"
#include "library/syllabi.h"
#include "sample.h"
#include "support/scratch.h"
#include "tune/outline.h"

namespace {

namespace fs = std::filesystem;

void make_held(const fs::path& file) {
    library::Intake intake = library::Intake::open(file);
    std::vector<collection::StoredSetting> settings{sample::setting("1", "Lamp", 11), sample::setting("2", "Rope", 22)};
    for (collection::StoredSetting& setting : settings) setting.outline = tune::encode_outline(tune::Outline{});
    intake.store_file(sample::file("/tunes/a.abc", std::move(settings)));
    intake.close();
    library::Marks marks = library::Marks::change(file);
    marks.add_tag({1}, tune::read_tag("wedding"));
    marks.add_tag({1}, tune::read_tag("harvest"));
    marks.set_count({2}, 4);
    marks.commit();
    library::Players players = library::Players::change(file);
    const auto ina = players.add({{}, tune::read_player_name("Ina"), {}, {}});
    players.record(*ina, {1}, {base::read_date("2027-01-12"), tune::PlayerEvent::known});
    players.wish(*ina, {2}, true);
    players.commit();
    library::keep_syllabus(file, {"tuesdays", "Tuesdays", "a term"}, std::nullopt);
}

void read_nothing(const std::string&) {}

std::string flaws_of(const fs::path& file, const std::function<void(const std::string&)>& read_term = read_nothing) {
    std::string all;
    for (const library::Flaw& flaw : library::look_through(file, read_term).flaws)
        all += std::string(flaw.part == library::Part::said ? "said: " : "") + flaw.sentence + "\n";
    return all;
}

}  // namespace

TEST_CASE("holdings: what was computed and what was said are counted", "[library][holdings]") {
    const support::Scratch scratch;
    make_held(scratch / "l.db");
    library::Holdings held = library::holdings_of(scratch / "l.db");
    CHECK(held.computed.tunes == 2);
    CHECK(held.tagged == 1);
    CHECK(held.counted == 1);
    CHECK(held.players == 1);
    CHECK(held.events == 1);
    CHECK(held.wishes == 1);
    CHECK(held.terms == 1);
    CHECK(held.bytes == fs::file_size(scratch / "l.db"));
    CHECK_FALSE(held.may_others_read);
    CHECK(held.backups.empty());
    fs::permissions(scratch / "l.db", fs::perms::others_read, fs::perm_options::add);
    library::keep_backup(scratch / "l.db");
    held = library::holdings_of(scratch / "l.db");
    CHECK(held.may_others_read);
    REQUIRE(held.backups.size() == 1);
    CHECK(held.backups.front().file == scratch / "l.db.backup-1");
}

TEST_CASE("holdings: a library that was made just so is sound", "[library][holdings]") {
    const support::Scratch scratch;
    make_held(scratch / "l.db");
    const library::Soundness soundness = library::look_through(scratch / "l.db", read_nothing);
    CHECK(soundness.is_sound());
    CHECK(soundness.settings == 2);
    CHECK(soundness.sayings >= 5);
}

TEST_CASE("holdings: what cannot be read is told by its part", "[library][holdings]") {
    const support::Scratch scratch;
    make_held(scratch / "l.db");
    CHECK(flaws_of(scratch / "l.db", [](const std::string&) { throw std::runtime_error("lesson 3 has no date"); }) ==
          "said: term \"Tuesdays\": lesson 3 has no date\n");
    {
        const library::Database database(scratch / "l.db", library::Access::write);
        database.exec(
            "UPDATE outline SET melody = x'00ff' WHERE setting_id = 1; DELETE FROM abc WHERE setting_id = 2;"
            "PRAGMA foreign_keys = OFF; UPDATE tune_count SET tune_id = 77");
    }
    const std::string flaws = flaws_of(scratch / "l.db");
    CHECK_THAT(flaws, Catch::Contains("1 melodies cannot be read") && Catch::Contains("tune 2 has no ABC") &&
                          Catch::Contains("tune_count: 1 rows point to no tune"));
}

TEST_CASE("holdings: a spoilt page is told by SQLite", "[library][holdings]") {
    const support::Scratch scratch;
    make_held(scratch / "l.db");
    {
        std::fstream stream(scratch / "l.db", std::ios::in | std::ios::out | std::ios::binary);
        stream.seekp(4096 * 20);
        stream << std::string(4096, '\x55');
    }
    CHECK_FALSE(library::look_through(scratch / "l.db", read_nothing).is_sound());
}
