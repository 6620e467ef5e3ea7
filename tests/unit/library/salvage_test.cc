#include "library/salvage.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <set>

#include "base/failure.h"
#include "library/backup.h"
#include "library/database.h"
#include "library/intake.h"
#include "library/library.h"
#include "library/marks.h"
#include "library/players.h"
#include "library/statement.h"
#include "sample.h"
#include "support/scratch.h"

namespace {

namespace fs = std::filesystem;

constexpr int kTunes = 400;

void make_damaged(const fs::path& file) {
    library::Intake intake = library::Intake::open(file);
    std::vector<collection::StoredSetting> settings;
    for (int number = 1; number <= kTunes; ++number)
        settings.push_back(sample::setting(std::to_string(number), "Lamp " + std::to_string(number),
                                           static_cast<std::uint64_t>(number)));
    intake.store_file(sample::file("/tunes/a.abc", std::move(settings)));
    intake.close();
    library::Marks marks = library::Marks::change(file);
    for (int tune = 1; tune <= kTunes; ++tune) marks.set_count({tune}, tune);
    marks.add_tag({3}, tune::read_tag("wedding"));
    marks.commit();
    library::Players players = library::Players::change(file);
    const auto ina = players.add({{}, tune::read_player_name("Ina"), {}, {}});
    players.record(*ina, {7}, {base::read_date("2027-01-12"), tune::PlayerEvent::known});
    players.commit();
}

// The first page of this table's tree that holds rows, from 0.
std::int64_t leaf_of(const fs::path& file, const std::string& table, std::int64_t nth) {
    const library::Database database(file, library::Access::read);
    library::Statement page(database,
                            "SELECT pageno FROM dbstat WHERE name = ?1 AND pagetype = 'leaf' LIMIT 1 OFFSET ?2");
    REQUIRE(page.bind(table, nth).step());
    return page.number(0) - 1;
}

void spoil(const fs::path& file, std::int64_t page) {
    std::fstream stream(file, std::ios::in | std::ios::out | std::ios::binary);
    stream.seekp(page * 4096);
    stream << std::string(4096, '\x55');
}

const library::SalvagedTable& table_of(const library::Salvage& salvage, const std::string& name) {
    for (const library::SalvagedTable& table : salvage.tables)
        if (table.name == name) return table;
    FAIL("no table " << name);
    return salvage.tables.front();
}

}  // namespace

TEST_CASE("salvage: a sound library comes out whole", "[library][salvage]") {
    const support::Scratch scratch;
    make_damaged(scratch / "l.db");
    const library::Salvage salvage = library::salvage(scratch / "l.db", scratch / "new.db");
    CHECK(salvage.is_whole());
    CHECK(table_of(salvage, "setting").rows == kTunes);
    const auto before = library::Library::open_existing(scratch / "l.db");
    const auto after = library::Library::open_existing(scratch / "new.db");
    CHECK(sample::all_settings(before) == sample::all_settings(after));
    CHECK(before.players() == after.players());
    CHECK(after.tunes_titled("lamp 17").size() == 1);
    CHECK_NOTHROW(library::back_up(scratch / "new.db", scratch / "copy.db"));  // which looks through it
    CHECK_THROWS_WITH(library::salvage(scratch / "l.db", scratch / "new.db"), Catch::Contains("is there already"));
}

TEST_CASE("salvage: without one page of the settings all others come, with what was said of every tune",
          "[library][salvage]") {
    const support::Scratch scratch;
    make_damaged(scratch / "l.db");
    spoil(scratch / "l.db", leaf_of(scratch / "l.db", "setting", 3));
    CHECK_THROWS_AS(library::back_up(scratch / "l.db", scratch / "copy.db"), base::Failure);
    const library::Salvage salvage = library::salvage(scratch / "l.db", scratch / "new.db");
    CHECK_FALSE(salvage.is_whole());
    const library::SalvagedTable& settings = table_of(salvage, "setting");
    CHECK(settings.has_gaps);
    CHECK(settings.rows > kTunes - 60);
    CHECK(settings.rows < kTunes);
    CHECK(table_of(salvage, "tune_count").rows == kTunes);
    CHECK(salvage.rows_let_go > 0);
    CHECK_NOTHROW(library::back_up(scratch / "new.db", scratch / "copy.db"));
    const auto after = library::Library::open_existing(scratch / "new.db");
    CHECK(sample::all_settings(after).size() == static_cast<std::size_t>(settings.rows));
    CHECK(after.marks().size() == kTunes);
    REQUIRE(after.player_named("ina"));
    CHECK(after.player_named("ina")->tunes.size() == 1);
}

TEST_CASE("salvage: whichever page is lost, something comes or a sentence tells why not", "[library][salvage]") {
    const support::Scratch scratch;
    make_damaged(scratch / "l.db");
    const auto pages = static_cast<std::int64_t>(fs::file_size(scratch / "l.db") / 4096);
    int salvaged = 0;
    for (std::int64_t page = 0; page < pages; page += 3) {
        CAPTURE(page);
        fs::copy_file(scratch / "l.db", scratch / "spoilt.db", fs::copy_options::overwrite_existing);
        spoil(scratch / "spoilt.db", page);
        fs::remove(scratch / "new.db");
        try {
            library::salvage(scratch / "spoilt.db", scratch / "new.db");
            fs::remove(scratch / "copy.db");
            CHECK_NOTHROW(library::back_up(scratch / "new.db", scratch / "copy.db"));
            ++salvaged;
        } catch (const base::Failure&) {
            CHECK_FALSE(fs::exists(scratch / "new.db"));
        }
    }
    CHECK(salvaged >= pages / 3 - 3);
}

TEST_CASE("salvage: a file whose first bytes are spoilt comes out whole", "[library][salvage]") {
    const support::Scratch scratch;
    make_damaged(scratch / "l.db");
    {
        std::fstream stream(scratch / "l.db", std::ios::in | std::ios::out | std::ios::binary);
        stream << std::string(100, 'x');
    }
    const library::Salvage salvage = library::salvage(scratch / "l.db", scratch / "new.db");
    CHECK(salvage.is_whole());
    CHECK(table_of(salvage, "setting").rows == kTunes);
    CHECK(std::distance(fs::directory_iterator(scratch.path()), {}) == 2);
}

TEST_CASE("salvage: the next import reads all files again and tunes keep their ids", "[library][salvage]") {
    const support::Scratch scratch;
    make_damaged(scratch / "l.db");
    spoil(scratch / "l.db", leaf_of(scratch / "l.db", "title", 1));
    library::salvage(scratch / "l.db", scratch / "new.db");
    library::Intake intake = library::Intake::open(scratch / "new.db");
    REQUIRE(intake.known_files().size() == 1);
    CHECK_FALSE(intake.known_files().front().facts_are_current);
    std::vector<collection::StoredSetting> settings;
    for (int number = 1; number <= kTunes; ++number)
        settings.push_back(sample::setting(std::to_string(number), "Lamp " + std::to_string(number),
                                           static_cast<std::uint64_t>(number)));
    intake.store_file(sample::file("/tunes/a.abc", std::move(settings)));
    intake.close();
    const auto after = library::Library::open_existing(scratch / "new.db");
    CHECK(sample::all_settings(after) == sample::all_settings(library::Library::open_existing(scratch / "new.db")));
    for (const int number : {1, 7, 150, 300, kTunes})
        CHECK(sample::id_titled(after, "Lamp " + std::to_string(number)) == number);
}

TEST_CASE("salvage: a library that another program is changing is told, and not read past its lock",
          "[library][salvage]") {
    const support::Scratch scratch;
    make_damaged(scratch / "l.db");
    const library::Database other(scratch / "l.db", library::Access::write);
    other.exec("BEGIN EXCLUSIVE");
    CHECK_THROWS_WITH(library::salvage(scratch / "l.db", scratch / "new.db"),
                      Catch::Contains("another program is using it"));
    CHECK_FALSE(fs::exists(scratch / "new.db"));
    other.exec("ROLLBACK");
    CHECK(library::salvage(scratch / "l.db", scratch / "new.db").is_whole());
}
