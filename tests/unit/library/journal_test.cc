#include "library/journal.h"

#include <catch2/catch.hpp>

#include <fstream>

#include "base/failure.h"
#include "base/file_bytes.h"
#include "kept_tables.h"
#include "library/database.h"
#include "library/intake.h"
#include "library/library.h"
#include "library/marks.h"
#include "library/players.h"
#include "library/syllabi.h"
#include "library/verdicts.h"
#include "sample.h"
#include "support/scratch.h"

using library::Library;
using library::Marks;
using library::Players;

namespace {

collection::StoredSetting setting_of(const std::string& number, const std::string& title, std::uint64_t melody) {
    collection::StoredSetting made = sample::setting(number, title, melody);
    made.facts.melody_class = melody * 1000;
    return made;
}

void store_book(const std::filesystem::path& file, std::vector<collection::StoredSetting> settings) {
    library::Intake intake = library::Intake::open(file);
    intake.store_file(sample::file("/t/a.abc", std::move(settings)));
    intake.close();
}

struct JournalShelf {
    support::Scratch scratch;
    std::filesystem::path file = scratch / "l.db";

    JournalShelf() {
        store_book(file, {setting_of("1", "Lamp", 11), setting_of("2", "Rope", 22), setting_of("3", "Net", 33)});
    }

    Library read() const { return Library::open_existing(file); }
    void exec(const std::string& sql) const { library::Database(file, library::Access::write).exec(sql); }
    // Something of every subject.
    void say() const {
        Marks marks = Marks::change(file, base::read_date("2026-11-30"));
        marks.add_tag({1}, tune::read_tag("Wedding"));
        marks.set_count({2}, 4);
        marks.set_key({1}, music::parse_key("Em"));
        marks.commit();
        library::say_same(file, {1}, {2}, false);
        library::keep_syllabus(file, {"mon", "Mon", "text"}, std::nullopt);
        Players players = Players::change(file);
        const auto ina = players.add({{}, tune::read_player_name("Ina"), "bc21", std::nullopt});
        players.record(*ina, {3}, {base::read_date("2026-11-29"), tune::PlayerEvent::known});
        players.wish(*ina, {1}, true);
        players.commit();
    }
    std::int64_t sayings() const { return static_cast<std::int64_t>(library::journal_of(file).size()); }
};

}  // namespace

TEST_CASE("journal: empty to begin with, one link for each thing said", "[library][journal]") {
    const JournalShelf shelf;
    CHECK(library::journal_of(shelf.file).empty());
    shelf.say();
    const auto links = library::journal_of(shelf.file);
    CHECK(links.size() == 8);
    CHECK(people::faults_of(links).empty());
    CHECK(library::faults_of_journal(shelf.file).empty());
    const people::Saying first = people::read_saying(*links[0].words);
    CHECK(first.day == base::read_date("2026-11-30"));
    CHECK(first.words == people::Words(people::TagGiven{{tune::TuneId{1}, 11000, "Lamp"}, "Wedding"}));
    CHECK(people::read_saying(*links[1].words).with == links[0].seal);
}

TEST_CASE("journal: what changes nothing, or is not finished, is not said", "[library][journal]") {
    const JournalShelf shelf;
    shelf.say();
    const std::int64_t before = shelf.sayings();
    {
        Marks marks = Marks::change(shelf.file);
        marks.add_tag({1}, tune::read_tag("WEDDING"));
        marks.remove_tag({3}, tune::read_tag("Wedding"));
        marks.set_count({1}, std::nullopt);
        marks.commit();
    }
    {
        Marks marks = Marks::change(shelf.file);
        marks.set_count({1}, 9);  // no commit
    }
    CHECK(shelf.sayings() == before);
}

TEST_CASE("journal: into a library of the same tunes under other ids, by melody or title", "[library][journal]") {
    const JournalShelf shelf;
    shelf.say();
    const auto links = people::read_journal(people::write_journal(library::journal_of(shelf.file)));
    const auto other = shelf.scratch / "other.db";
    // Lamp is retitled, Net is another melody under its title, Rope comes later.
    store_book(other, {setting_of("1", "First", 77), setting_of("2", "Lantern", 11), setting_of("3", "Net", 34)});
    CHECK(library::take_in_journal(other, links) == library::TakenIn{8, 0, 1});
    const Library library = Library::open_existing(other);
    CHECK(library.tune_by_id({2})->tags == std::vector<std::string>{"Wedding"});
    CHECK(library.tune_by_id({2})->key == music::parse_key("Em"));
    CHECK(library.tune_by_id({1})->tags.empty());
    const auto ina = library.player_named("ina");
    REQUIRE(ina);
    REQUIRE(ina->tunes.size() == 2);
    CHECK(ina->tunes[0].wished);
    CHECK(ina->tunes[1].tune == tune::TuneId{3});
    CHECK(library.verdicts().empty());
    CHECK(library::kept_syllabus(other, "mon")->text == "text");
    CHECK(library::faults_of_journal(other).empty());
}

TEST_CASE("journal: what was said of a tune that comes later holds then", "[library][journal]") {
    const JournalShelf shelf;
    shelf.say();
    const auto other = shelf.scratch / "other.db";
    store_book(other, {setting_of("1", "First", 77)});
    library::take_in_journal(other, library::journal_of(shelf.file));
    CHECK(Library::open_existing(other).marks().empty());
    library::Intake intake = library::Intake::open(other);
    intake.store_file(sample::file("/t/b.abc", {setting_of("1", "Rope", 22)}));
    intake.close();
    CHECK(Library::open_existing(other).tune_by_id({2})->count == 4);
}

TEST_CASE("journal: a forgotten player leaves a gap that is declared, and no word", "[library][journal]") {
    const JournalShelf shelf;
    shelf.say();
    const auto copy = library::journal_of(shelf.file);
    Players players = Players::change(shelf.file);
    players.remove(players.named(tune::read_player_name("Ina"))->id);
    players.commit();
    CHECK(shelf.read().players().empty());
    CHECK(shelf.scratch.read("l.db").find("Ina") == std::string::npos);
    CHECK(shelf.scratch.read("l.db").find("2026-11-29") == std::string::npos);
    CHECK(library::faults_of_journal(shelf.file).empty());
    const auto links = library::journal_of(shelf.file);
    CHECK(links.size() == 10);
    CHECK(std::count_if(links.begin(), links.end(), [](const auto& link) { return !link.words; }) == 3);

    // An older journal does not bring it back, and a library that had it forgets as well.
    CHECK(library::take_in_journal(shelf.file, copy) == library::TakenIn{});
    CHECK(shelf.read().players().empty());
    const auto other = shelf.scratch / "other.db";
    store_book(other, {setting_of("1", "Net", 33)});
    library::take_in_journal(other, copy);
    REQUIRE(Library::open_existing(other).players().size() == 1);
    CHECK(library::take_in_journal(other, links) == library::TakenIn{2, 3, 3});
    CHECK(Library::open_existing(other).players().empty());
    CHECK(shelf.scratch.read("other.db").find("Ina") == std::string::npos);
}

TEST_CASE("journal: terms forget a player too, under every name, as they were and are", "[library][journal]") {
    const JournalShelf shelf;
    shelf.say();
    const auto file = shelf.file;
    const tune::PlayerName later = tune::read_player_name("Wendolin");
    {
        Players players = Players::change(file);
        players.rename(players.named(tune::read_player_name("Ina"))->id, later);
        players.commit();
    }
    library::keep_syllabus(file, {"fri", "Fri", "first for Ina"}, std::nullopt);
    library::keep_syllabus(file, {"fri", "Fri", "then for Wendolin"}, "first for Ina");
    library::keep_syllabus(file, {"tue", "Tue", "only for Wendolin"}, std::nullopt);
    library::forget_syllabus(file, "tue");
    library::keep_syllabus(file, {"wed", "Wed", "for Olli"}, std::nullopt);
    {
        Players players = Players::change(file);
        players.remove(players.named(later)->id, [](std::string text, const std::vector<tune::PlayerName>& names) {
            for (const tune::PlayerName& name : names)
                if (const auto at = text.find(name.text); at != std::string::npos)
                    text.replace(at, name.text.size(), "nobody");
            return text;
        });
        players.commit();
    }
    CHECK(shelf.scratch.read("l.db").find("Ina") == std::string::npos);
    CHECK(shelf.scratch.read("l.db").find("Wendolin") == std::string::npos);
    CHECK(library::kept_syllabus(file, "fri")->text == "then for nobody");
    CHECK(library::kept_syllabus(file, "wed")->text == "for Olli");
    CHECK(library::faults_of_journal(file).empty());
    library::rebuild_kept(file);
    CHECK(library::kept_syllabus(file, "fri")->text == "then for nobody");
    const auto was = [](const std::string&, const std::string& before) { return before; };
    CHECK(library::take_back_syllabus(file, "fri", was)->text == "first for nobody");
    CHECK_FALSE(library::kept_syllabus(file, "tue"));
}

TEST_CASE("journal: a new name goes into terms as they were and are, all in one, and is taken back so",
          "[library][journal]") {
    const JournalShelf shelf;
    shelf.say();
    const auto file = shelf.file;
    library::keep_syllabus(file, {"fri", "Fri", "first for Ina"}, std::nullopt);
    library::keep_syllabus(file, {"fri", "Fri", "then for Ina"}, "first for Ina");
    library::keep_syllabus(file, {"wed", "Wed", "for Ina"}, std::nullopt);
    library::keep_syllabus(file, {"sun", "Sun", "for Olli"}, std::nullopt);
    const auto later = [](std::string text) {
        if (const auto at = text.find("Ina"); at != std::string::npos) text.replace(at, 3, "Wendolin");
        return text;
    };
    const std::string kept = support::kept_tables(file);

    SECTION("broken off between the name and the terms, or between two terms, nothing is changed") {
        for (const char* last : {"first for Ina", "then for Ina", "for Ina", ""}) {
            CAPTURE(last);
            const std::int64_t sayings = shelf.sayings();
            {
                Players players = Players::change(file);
                const auto ina = players.named(tune::read_player_name("Ina"))->id;
                const auto broken_off = [&](const std::string& text) {
                    if (text == last) throw std::runtime_error("broken off");
                    return later(text);
                };
                if (*last != '\0')
                    CHECK_THROWS_AS(players.rename(ina, tune::read_player_name("Wendolin"), broken_off),
                                    std::runtime_error);
                else
                    players.rename(ina, tune::read_player_name("Wendolin"), broken_off);  // and no commit
            }
            CHECK(support::kept_tables(file) == kept);
            CHECK(shelf.sayings() == sayings);
        }
    }
    SECTION("done, and taken back") {
        {
            Players players = Players::change(file);
            CHECK(players.rename(players.named(tune::read_player_name("Ina"))->id, tune::read_player_name("Wendolin"),
                                 later) == std::vector<std::string>{"Fri", "Wed"});
            players.commit();
        }
        CHECK(shelf.read().player_named("Wendolin"));
        CHECK(library::kept_syllabus(file, "fri")->text == "then for Wendolin");
        CHECK(library::kept_syllabus(file, "wed")->text == "for Wendolin");
        CHECK(library::kept_syllabus(file, "sun")->text == "for Olli");
        CHECK(library::faults_of_journal(file).empty());
        const std::string renamed = support::kept_tables(file);
        library::rebuild_kept(file);
        CHECK(support::kept_tables(file) == renamed);
        SECTION("the whole of it, by what was said last") {
            CHECK(library::take_back_last(file, std::nullopt).size() == 4);
            CHECK(support::kept_tables(file) == kept);
        }
        SECTION("a term as it was before has the new name too") {
            const auto was = [](const std::string&, const std::string& before) { return before; };
            CHECK(library::take_back_syllabus(file, "fri", was)->text == "first for Wendolin");
        }
    }
}

TEST_CASE("journal: what is not as it was sealed is neither shown nor built on", "[library][journal]") {
    for (const char* change :
         {"UPDATE saying SET words = replace(words, '\"times\":4', '\"times\":5')",
          "UPDATE saying SET seal = 'x' WHERE id = 2", "DELETE FROM saying WHERE id = 2",
          "DELETE FROM saying WHERE id = (SELECT max(id) FROM saying)",
          "UPDATE saying SET kind = 'untag' WHERE kind = 'tag'", "UPDATE saying SET clock = clock + 1 WHERE id = 1",
          "UPDATE journal_head SET sayings = sayings + 1"}) {
        CAPTURE(change);
        const JournalShelf shelf;
        shelf.say();
        {
            const library::Database database(shelf.file, library::Access::write);
            database.exec(change);
            REQUIRE(database.changes() > 0);
        }
        const std::string before = shelf.scratch.read("l.db");
        CHECK_THROWS_AS(library::all_said(shelf.file), base::Failure);
        CHECK_THROWS_AS(library::journal_of(shelf.file), base::Failure);
        CHECK_THROWS_AS(library::take_back_last(shelf.file, std::nullopt), base::Failure);
        CHECK_THROWS_AS(library::take_in_journal(shelf.file, {}), base::Failure);
        CHECK(shelf.scratch.read("l.db") == before);
    }
}

TEST_CASE("journal: a row that changed by itself is told, and can be made anew", "[library][journal]") {
    const std::vector<std::string> changes{"UPDATE tune_count SET times = 5",
                                           "UPDATE tag SET text = 'Wadding'",
                                           "UPDATE tune_tag SET tune_id = 3",
                                           "DELETE FROM tune_key",
                                           "UPDATE player_event SET day = '2026-11-28'",
                                           "UPDATE player_event SET event = 'rusty'",
                                           "UPDATE player SET instrument = 'bc22'",
                                           "DELETE FROM player_wish",
                                           "UPDATE verdict SET is_same = 1",
                                           "UPDATE syllabus SET text = 'texu'"};
    for (const std::string& sql : changes) {
        CAPTURE(sql);
        const JournalShelf shelf;
        shelf.say();
        const std::string kept = support::kept_tables(shelf.file);
        shelf.exec(sql);
        CHECK(library::faults_of_journal(shelf.file).said.empty());
        CHECK(library::faults_of_journal(shelf.file).kept.size() == 1);
        const auto ask_all = [&] {
            const Library library = shelf.read();
            library.marks();
            library.verdicts();
            library.players();
            library::kept_syllabi(shelf.file);
        };
        CHECK_THROWS_WITH(ask_all(), Catch::Contains("has changed by itself"));
        library::rebuild_kept(shelf.file);
        CHECK_NOTHROW(ask_all());
        CHECK(support::kept_tables(shelf.file) == kept);
    }
}

TEST_CASE("journal: a saying that changed by itself is told, and nothing is made of it", "[library][journal]") {
    const std::vector<std::string> changes{
        "UPDATE saying SET words = replace(words, 'Wedding', 'Wadding') WHERE id = 1",
        "UPDATE saying SET words = 'x' WHERE id = 2",
        "UPDATE saying SET words = NULL, kind = NULL WHERE id = 3",
        "UPDATE saying SET clock = 40 WHERE id = 4",
        "UPDATE saying SET kind = 'untag' WHERE id = 1",
        "UPDATE saying SET before = NULL WHERE id = 5",
        "UPDATE saying SET is_from_elsewhere = 1 WHERE id = 3",
        "DELETE FROM saying WHERE id = 4",
        "DELETE FROM saying WHERE id = 8"};
    for (const std::string& sql : changes) {
        CAPTURE(sql);
        const JournalShelf shelf;
        shelf.say();
        const std::string kept = support::kept_tables(shelf.file);
        shelf.exec(sql);
        CHECK_FALSE(library::faults_of_journal(shelf.file).empty());
        CHECK_THROWS_AS(library::rebuild_kept(shelf.file), base::Failure);
        CHECK(support::kept_tables(shelf.file) == kept);
    }
}

TEST_CASE("journal: nothing is said after a lost end", "[library][journal]") {
    const JournalShelf shelf;
    shelf.say();
    shelf.exec("DELETE FROM saying WHERE id = 8");
    CHECK_THROWS_WITH(Marks::change(shelf.file), Catch::Contains("the end of the journal is missing"));
}

TEST_CASE("journal: links that are not as they were sealed are not taken in", "[library][journal]") {
    const JournalShelf shelf;
    shelf.say();
    auto links = library::journal_of(shelf.file);
    links[0].words->replace(links[0].words->find("Wedding"), 7, "Wadding");
    const auto other = shelf.scratch / "other.db";
    store_book(other, {setting_of("1", "Lamp", 11)});
    CHECK_THROWS_AS(library::take_in_journal(other, links), base::Failure);
    CHECK(library::journal_of(other).empty());
}

TEST_CASE("journal: what was said last is taken back, of whatever, go by go", "[library][journal]") {
    const JournalShelf shelf;
    shelf.say();
    library::say_same(shelf.file, {2}, {3}, true);
    const auto day = base::read_date("2026-12-01");
    auto last = library::take_back_last(shelf.file, day);
    REQUIRE(last.size() == 1);
    CHECK(people::kind_of(last[0].saying.words) == "same");
    CHECK(shelf.read().verdicts().size() == 1);
    CHECK(library::take_back_last(shelf.file, day).size() == 3);  // Ina, what she knows, her wish
    CHECK(shelf.read().players().empty());
    CHECK_THROWS_WITH(library::take_back_last(shelf.file, day), Catch::Contains("the term \"Mon\""));
    CHECK(library::faults_of_journal(shelf.file).empty());
    CHECK(library::all_said(shelf.file).back().saying.day == day);
}

TEST_CASE("journal: a file holds it, is brought up to date, and loses nothing", "[library][journal]") {
    const JournalShelf shelf;
    const auto to = shelf.scratch / "said.jsonl";
    shelf.say();
    CHECK(library::export_journal(shelf.file, to) == 8);
    const std::string text = base::read_bytes(to.string());
    CHECK(people::read_journal(text) == library::journal_of(shelf.file));
    CHECK((std::filesystem::status(to).permissions() & std::filesystem::perms::mask) ==
          (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));

    CHECK(library::export_journal(shelf.file, to) == 8);
    CHECK(base::read_bytes(to.string()) == text);
    library::say_same(shelf.file, {2}, {3}, true);
    CHECK(library::export_journal(shelf.file, to) == 9);
    CHECK(base::read_bytes(to.string()).starts_with(text));

    // Of another library, with something this one has never heard.
    const JournalShelf other;
    other.say();
    CHECK_THROWS_WITH(library::export_journal(other.file, to), Catch::Contains("that this library does not have (9)"));
    std::ofstream(shelf.scratch / "diary.txt") << "Tuesday\n";
    CHECK_THROWS_WITH(library::export_journal(shelf.file, shelf.scratch / "diary.txt"),
                      Catch::Contains("no earlier export"));
    CHECK(base::read_bytes((shelf.scratch / "diary.txt").string()) == "Tuesday\n");
    CHECK_THROWS_AS(library::export_journal(shelf.file, shelf.file), base::Failure);
}

TEST_CASE("journal: what was said of a tune that is not here waits for it", "[library][journal]") {
    const JournalShelf shelf;
    shelf.say();
    const auto links = library::journal_of(shelf.file);
    const std::filesystem::path empty = shelf.scratch / "empty.db";
    store_book(empty, {});
    const library::TakenIn taken = library::take_in_journal(empty, links);
    CHECK(taken.added == 8);
    CHECK(taken.waiting == 5);  // the verdict names two tunes, a term none
    CHECK(Library::open_existing(empty).marks().empty());
    store_book(empty, {setting_of("1", "Lamp", 11), setting_of("2", "Rope", 22), setting_of("3", "Net", 33)});
    CHECK(library::take_in_journal(empty, links) == library::TakenIn{});
    CHECK(Library::open_existing(empty).marks().size() == 2);
    CHECK(Library::open_existing(empty).players().size() == 1);
}
