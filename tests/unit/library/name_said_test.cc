#include "library/name_said.h"

#include <catch2/catch.hpp>

#include "kept_tables.h"
#include "library/intake.h"
#include "library/journal.h"
#include "library/library.h"
#include "library/marks.h"
#include "library/players.h"
#include "library/syllabi.h"
#include "sample.h"
#include "support/scratch.h"

using library::Library;
using library::Marks;
using library::Players;

namespace {

// Where the name of somebody stands who was never a player, or is one no longer.
struct NamedShelf {
    support::Scratch scratch;
    std::filesystem::path file = scratch / "l.db";
    tune::PlayerName name = tune::read_player_name("Gundobert");

    NamedShelf() {
        library::Intake intake = library::Intake::open(file);
        intake.store_file(
            sample::file("/t/a.abc", {sample::setting("1", "Lamp", 11), sample::setting("2", "Rope", 22)}));
        intake.close();
        Marks marks = Marks::change(file);
        marks.add_tag({1}, tune::read_tag("Gundobert's"));
        marks.add_tag({1}, tune::read_tag("wedding"));
        marks.add_tag({2}, tune::read_tag("for gundobert"));
        marks.set_rhythm({2}, "gundobert-step");
        marks.commit();
        Marks later = Marks::change(file);
        later.remove_tag({2}, tune::read_tag("for gundobert"));
        later.commit();
        Players players = Players::change(file);
        const auto ina = players.add({{}, tune::read_player_name("Ina"), std::nullopt, std::nullopt});
        players.exclude(*ina, {1}, "Gundobert plays it");
        players.exclude(*ina, {2}, "too high");
        players.commit();
        library::keep_syllabus(file, {"with gundobert", "With Gundobert", "text"}, std::nullopt);
        library::keep_syllabus(file, {"gundoberts", "Gundoberts", "text"}, std::nullopt);
        library::forget_syllabus(file, "gundoberts");
        library::keep_syllabus(file, {"fri", "Fri", "asked Gundobert"}, std::nullopt);
        library::keep_syllabus(file, {"fri", "Fri", "asked nobody"}, "asked Gundobert");
        library::keep_syllabus(file, {"sat", "Sat", "asked Ina"}, std::nullopt);
    }
    static std::string without(const std::string& text) {
        return text == "asked Gundobert" ? "asked a removed player" : text;
    }
};

}  // namespace

TEST_CASE("name_said: found wherever it was said, past and present, and nothing is changed", "[library][journal]") {
    const NamedShelf shelf;
    const std::string before = shelf.scratch.read("l.db");
    const auto found = library::entries_saying(shelf.file, shelf.name, NamedShelf::without);
    std::vector<std::string_view> kinds;
    for (const people::Entry& entry : found) kinds.push_back(people::kind_of(entry.saying.words));
    CHECK(kinds == std::vector<std::string_view>{"tag", "tag", "rhythm", "untag", "unwanted", "term", "term",
                                                 "term-gone", "term"});
    const auto as_it_is = [](const std::string& text) { return text; };
    CHECK(library::entries_saying(shelf.file, tune::read_player_name("Wendolin"), as_it_is).empty());
    CHECK(shelf.scratch.read("l.db") == before);
}

TEST_CASE("name_said: erased from every byte, and all else holds", "[library][journal]") {
    const NamedShelf shelf;
    REQUIRE(shelf.scratch.read("l.db").find("undobert") != std::string::npos);
    CHECK(library::erase_saying(shelf.file, shelf.name, NamedShelf::without, std::nullopt).size() == 9);
    CHECK(shelf.scratch.read("l.db").find("undobert") == std::string::npos);
    CHECK(library::faults_of_journal(shelf.file).empty());
    {
        const Library library = Library::open_existing(shelf.file);
        CHECK(library.tune_by_id({1})->tags == std::vector<std::string>{"wedding"});
        CHECK(library.tune_by_id({2})->tags.empty());
        const auto ina = library.player_named("Ina");
        REQUIRE(ina);
        REQUIRE(ina->tunes.size() == 2);
        CHECK(ina->tunes[0].excluded == "");
        CHECK(ina->tunes[1].excluded == "too high");
    }
    CHECK_FALSE(library::kept_syllabus(shelf.file, "with gundobert"));
    CHECK(library::kept_syllabus(shelf.file, "fri")->text == "asked nobody");
    CHECK(library::kept_syllabus(shelf.file, "sat")->text == "asked Ina");
    const std::string kept = support::kept_tables(shelf.file);
    library::rebuild_kept(shelf.file);
    CHECK(support::kept_tables(shelf.file) == kept);
    const auto was = [](const std::string&, const std::string& before) { return before; };
    CHECK(library::take_back_syllabus(shelf.file, "fri", was)->text == "asked a removed player");

    const std::string before = shelf.scratch.read("l.db");
    CHECK(library::erase_saying(shelf.file, shelf.name, NamedShelf::without, std::nullopt).empty());
    CHECK(shelf.scratch.read("l.db") == before);
}
