// Identity through the library: what settings_matched_test.cc says of one file, and what moves between files.
#include <catch2/catch.hpp>

#include "library/database.h"
#include "library/intake.h"
#include "library/library.h"
#include "sample.h"
#include "support/scratch.h"

using library::FileId;
using library::Intake;
using library::Library;
using library::SettingCounts;
using sample::setting;

namespace {

FileId id_of(const Intake& intake, const std::string& path) {
    for (const library::KnownFile& file : intake.known_files())
        if (file.path == path) return file.id;
    return {};
}

struct StoreFileShelf {
    support::Scratch scratch;
    std::filesystem::path file = scratch / "l.db";
    Intake intake = Intake::open(file);

    Library read() const { return Library::open_existing(file); }
    std::int64_t id(const std::string& title) const { return sample::id_titled(read(), title); }
};

}  // namespace

TEST_CASE("store: counts what is new, same, changed and gone", "[library][store]") {
    StoreFileShelf shelf;
    CHECK(shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Rope", 22),
                                                            setting("3", "Net", 33)})) == SettingCounts{3, 0, 0, 0});
    CHECK(shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Rope", 23),
                                                            setting("4", "Oar", 44)})) == SettingCounts{1, 1, 1, 1});
    CHECK(shelf.id("Lamp") == 1);
    CHECK(shelf.id("Rope") == 2);
    CHECK(shelf.id("Net") == 0);
    CHECK(shelf.id("Oar") == 4);
}

TEST_CASE("store: a record is what was handed over", "[library][store]") {
    StoreFileShelf shelf;
    collection::StoredSetting given = setting("12", "The Lamp", 11);
    given.titles.push_back("L\xC3\xA0mpa");
    given.rhythm_stated = "Slip Jig";
    given.key_stated = "A explicit";
    given.key_in_force = "E minor";
    given.errors = 3;
    given.facts.rhythm = tune::Finding<std::string>{"slip jig", tune::Basis::stated};
    given.facts.meter = {{music::Meter::Kind::fraction, 9, 8}, tune::Basis::stated};
    given.facts.needed = sample::notes({0, 63, 64, 127});
    given.facts.ornaments = sample::notes({72});
    given.facts.first_note = std::nullopt;
    given.facts.last_note = 127;
    given.facts.key = tune::KeyFinding{
        {{{music::Letter::A, 0}, music::Mode::dorian}, {{music::Letter::B, -1}, music::Mode::minor}}, false, {}};
    given.facts.melody_hash = 0xFFFF'FFFF'0000'0001U;
    given.facts.rhythm_possible = {"jig", "slide"};
    given.facts.leaps.largest = tune::Leap{76, 63, 2};
    given.facts.scrap = tune::Scrap::breaks_off;
    given.form = "AAB";
    given.facts.differing_part_keys = {{{music::Letter::A, 0}, music::Mode::dorian},
                                       {{music::Letter::C, 1}, music::Mode::major}};
    shelf.intake.store_file(sample::file("/t/a.abc", {given}, "%abc-2.1"));

    const auto records = sample::all_settings(shelf.read());
    REQUIRE(records.size() == 1);
    tune::TuneRecord expected;
    expected.id = {1};
    expected.own = {1};
    expected.setting = {1};
    expected.titles = given.titles;
    expected.file = "a.abc";
    expected.number = "12";
    expected.line = 1;
    expected.rhythm = given.facts.rhythm;
    expected.rhythm_stated = "Slip Jig";
    expected.meter = "9/8";
    expected.key_stated = "A explicit";
    expected.key_in_force = "E minor";
    expected.key_candidates = given.facts.key->candidates;
    expected.key = given.facts.key->headline();
    expected.key_basis = given.facts.key->basis();
    expected.key_decided = false;
    expected.needed = given.facts.needed;
    expected.ornaments = given.facts.ornaments;
    expected.note_count = 24;
    expected.last_note = 127;
    expected.bars = 8;
    expected.different_bars = 4;
    expected.errors = 3;
    expected.rhythm_possible = given.facts.rhythm_possible;
    expected.largest_leap = 13;
    expected.scrap = tune::Scrap::breaks_off;
    expected.form = "AAB";
    expected.part_keys = given.facts.differing_part_keys;
    CHECK(records.front() == expected);
    CHECK(shelf.read().abc_of({1})->text == "%abc-2.1\n\n" + given.abc);
}

TEST_CASE("store: a note corrected changes the facts and keeps the id", "[library][store]") {
    StoreFileShelf shelf;
    shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Rope", 22)}));
    collection::StoredSetting corrected = setting("2", "Rope", 23);
    corrected.facts.needed = sample::notes({60});
    corrected.titles = {"Rope", "The Long Rope"};
    shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11), corrected}));
    const auto record = shelf.read().tune_by_id({2});
    REQUIRE(record);
    CHECK(record->needed == sample::notes({60}));
    CHECK(record->titles == std::vector<std::string>{"Rope", "The Long Rope"});
    collection::Selection words;
    words.title = "long";
    CHECK(shelf.read().select_tunes(words).matched == 1);
}

TEST_CASE("store: a title corrected is found by the new words and no more by the old", "[library][store]") {
    StoreFileShelf shelf;
    shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lanp", 11)}));
    shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11)}));
    collection::Selection words;
    words.title = "lamp";
    CHECK(shelf.read().select_tunes(words).matched == 1);
    words.title = "lanp";
    CHECK(shelf.read().select_tunes(words).matched == 0);
    CHECK(shelf.id("Lamp") == 1);
}

TEST_CASE("store: deleted and restored, the id comes back", "[library][store]") {
    StoreFileShelf shelf;
    shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Rope", 22)}));
    CHECK(shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11)})) == SettingCounts{0, 0, 1, 1});
    CHECK(shelf.read().counts().settings_gone == 1);
    CHECK(shelf.read().tune_by_id({2})->titles.front() == "Rope");  // gone, but not forgotten
    CHECK(shelf.read().abc_of({2})->gone);
    CHECK(shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Rope", 22)})) ==
          SettingCounts{0, 0, 2, 0});
    CHECK(shelf.id("Rope") == 2);
}

TEST_CASE("store: deleted here and restored in another file, the id comes back", "[library][store]") {
    StoreFileShelf shelf;
    shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Rope", 22)}));
    shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11)}));
    CHECK(shelf.intake.store_file(sample::file("/t/b.abc", {setting("9", "Rope", 22)})) == SettingCounts{0, 1, 0, 0});
    CHECK(shelf.id("Rope") == 2);
    CHECK(shelf.read().tune_by_id({2})->file == "b.abc");
    CHECK(shelf.read().counts().settings_gone == 0);
}

TEST_CASE("store: a copied file is new, whatever it holds", "[library][store]") {
    StoreFileShelf shelf;
    const auto original = sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Rope", 22)});
    shelf.intake.store_file(original);
    auto copy = original;
    copy.path = "/t/copy.abc";
    CHECK(shelf.intake.store_file(copy) == SettingCounts{2, 0, 0, 0});
    CHECK(shelf.read().counts().tunes == 4);
}

TEST_CASE("store: a moved file keeps its ids and its one row", "[library][store]") {
    StoreFileShelf shelf;
    auto file = sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Rope", 22)});
    shelf.intake.store_file(file);
    const FileId id = id_of(shelf.intake, "/t/a.abc");
    shelf.intake.set_vanished(std::vector<FileId>{id});
    file.path = "/t/new/b.abc";
    file.shown = "new/b.abc";
    CHECK(shelf.intake.store_file(file) == SettingCounts{0, 0, 2, 0});
    CHECK(id_of(shelf.intake, "/t/new/b.abc") == id);
    CHECK(shelf.intake.known_files().size() == 1);
    CHECK(shelf.intake.mark_gone(std::vector<FileId>{id}).files == 0);  // it is not gone, it has moved
    CHECK(shelf.read().tune_by_id({2})->file == "new/b.abc");
}

TEST_CASE("store: moved and corrected at once, found by melody; by number where melodies are equal",
          "[library][store]") {
    StoreFileShelf shelf;
    shelf.intake.store_file(
        sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Lamp", 11), setting("3", "Net", 33)}));
    shelf.intake.set_vanished(std::vector<FileId>{id_of(shelf.intake, "/t/a.abc")});
    const auto counts = shelf.intake.store_file(
        sample::file("/t/b.abc", {setting("2", "Bright Lamp", 11), setting("8", "Net", 33), setting("9", "Oar", 44)}));
    CHECK(counts == SettingCounts{1, 2, 0, 0});
    CHECK(shelf.id("Bright Lamp") == 2);
    CHECK(shelf.id("Net") == 3);
    CHECK(shelf.id("Oar") == 4);
    CHECK(shelf.intake.mark_gone(std::vector<FileId>{id_of(shelf.intake, "/t/a.abc")}).settings ==
          1);  // the first Lamp
    // What gave tunes away must be read again should it return, even with the same bytes.
    CHECK(shelf.intake.known_files().front().content_hash.empty());
}

TEST_CASE("store: settings without notes are not taken for each other across files", "[library][store]") {
    StoreFileShelf shelf;
    collection::StoredSetting empty = setting("1", "Words only", 0);
    empty.facts.note_count = 0;
    shelf.intake.store_file(sample::file("/t/a.abc", {empty}));
    shelf.intake.set_vanished(std::vector<FileId>{id_of(shelf.intake, "/t/a.abc")});
    collection::StoredSetting other = setting("1", "Other words", 0);
    other.facts.note_count = 0;
    CHECK(shelf.intake.store_file(sample::file("/t/b.abc", {other})).added == 1);
}

TEST_CASE("store: a file that is gone comes back with its ids", "[library][store]") {
    StoreFileShelf shelf;
    const auto file = sample::file("/t/a.abc", {setting("1", "Lamp", 11), setting("2", "Rope", 22)});
    shelf.intake.store_file(file);
    const std::vector<FileId> ids{id_of(shelf.intake, "/t/a.abc")};
    shelf.intake.set_vanished(ids);
    const auto gone = shelf.intake.mark_gone(ids);
    CHECK(gone.files == 1);
    CHECK(gone.settings == 2);
    CHECK(shelf.read().counts().settings == 0);
    CHECK(shelf.intake.known_files().front().gone);
    CHECK(shelf.intake.store_file(file) == SettingCounts{0, 0, 2, 0});
    CHECK_FALSE(shelf.intake.known_files().front().gone);
    CHECK(shelf.id("Rope") == 2);
}

TEST_CASE("store: facts of an older analysis are replaced though the text is the same", "[library][store]") {
    StoreFileShelf shelf;
    auto file = sample::file("/t/a.abc", {setting("1", "Lamp", 11)});
    shelf.intake.store_file(file);
    CHECK(shelf.intake.known_files().front().facts_are_current);
    {
        const library::Database database(shelf.file, library::Access::write);
        database.exec("UPDATE setting SET analysis_version = analysis_version - 1");
    }
    CHECK_FALSE(shelf.intake.known_files().front().facts_are_current);
    file.settings.front().facts.bars = 99;
    CHECK(shelf.intake.store_file(file) == SettingCounts{0, 0, 1, 0});
    CHECK(shelf.read().tune_by_id({1})->bars == 99);
    CHECK(shelf.intake.known_files().front().facts_are_current);
}

TEST_CASE("store: a changed file header changes its tunes", "[library][store]") {
    StoreFileShelf shelf;
    shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11)}, "L:1/8"));
    CHECK(shelf.intake.store_file(sample::file("/t/a.abc", {setting("1", "Lamp", 11)}, "L:1/4")) ==
          SettingCounts{0, 1, 0, 0});
    CHECK(shelf.read().abc_of({1})->text.starts_with("L:1/4\n\n"));
}

TEST_CASE("store: diagnostics are those of the last reading", "[library][store]") {
    StoreFileShelf shelf;
    auto file = sample::file("/t/a.abc", {setting("1", "Lamp", 11)});
    file.diagnostics = {{7, 3, base::Severity::error, "abc-x", "odd"}, {2, 1, base::Severity::remark, "abc-y", "also"}};
    shelf.intake.store_file(file);
    const auto first = shelf.read().diagnostics();
    REQUIRE(first.size() == 2);
    CHECK(first[0].diagnostic == file.diagnostics[1]);
    CHECK(first[1].diagnostic == file.diagnostics[0]);
    CHECK(first[1].file == "a.abc");
    file.diagnostics.pop_back();
    shelf.intake.store_file(file);
    CHECK(shelf.read().diagnostics().size() == 1);
}
