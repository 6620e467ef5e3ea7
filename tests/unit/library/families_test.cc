#include "library/families.h"

#include <catch2/catch.hpp>
#include <limits>
#include <random>
#include <set>

#include "library/database.h"
#include "library/marks.h"
#include "library/verdicts.h"
#include "sample.h"
#include "support/scratch.h"

namespace {

using Heads = std::vector<std::int64_t>;

collection::StoredSetting tune_of_class(const std::string& number, const std::string& title, std::uint64_t melody,
                                        std::uint64_t melody_class) {
    collection::StoredSetting setting = sample::setting(number, title, melody);
    setting.facts.melody_class = melody_class;
    return setting;
}

// Lamp and Lantern are the same in another key; Net is another tune.
struct FamiliesShelf {
    support::Scratch scratch;
    std::filesystem::path file = scratch / "l.db";

    FamiliesShelf() {
        import({tune_of_class("1", "Lamp", 11, 7), tune_of_class("2", "Net", 22, 8),
                tune_of_class("3", "Lantern", 33, 7)});
    }

    void import(std::vector<collection::StoredSetting> settings) const {
        library::Intake intake = library::Intake::open(file);
        intake.store_file(sample::file("/t/a.abc", std::move(settings)));
        intake.close();
    }
    library::Library read() const { return library::Library::open_existing(file); }
    std::vector<std::int64_t> ids() const {
        std::vector<std::int64_t> ids;
        collection::Selection everything;
        everything.sort = collection::Sort::file;
        for (const auto& row : read().select_tunes(everything).rows) ids.push_back(row.id.value);
        return ids;
    }
    void say(std::int64_t one, std::int64_t other, bool is_same) const {
        library::say_same(file, {one}, {other}, is_same);
    }
};

}  // namespace

TEST_CASE("families: between two files of an import no melody is two tunes", "[library][families]") {
    const FamiliesShelf shelf;
    library::Intake intake = library::Intake::open(shelf.file);
    intake.store_file(sample::file("/t/b.abc", {tune_of_class("1", "Lamp", 11, 7), tune_of_class("2", "Oar", 44, 9),
                                                tune_of_class("3", "Oars", 45, 9)}));
    CHECK(shelf.ids() == Heads{1, 2, 5});
    CHECK(shelf.read().counts().tunes == 3);
    CHECK(shelf.read().settings_of({1}).size() == 3);
    intake.close();
    CHECK(shelf.ids() == Heads{1, 2, 5});
}

TEST_CASE("families: an import groups what is the same, and counts are by tune", "[library][families]") {
    const FamiliesShelf shelf;
    CHECK(shelf.ids() == Heads{1, 2});
    CHECK(shelf.read().counts().tunes == 2);
    CHECK(shelf.read().counts().settings == 3);
    CHECK(shelf.read().settings_of({1}).size() == 2);
    CHECK(shelf.read().tune_by_id({3})->id.value == 1);  // an id that has joined another answers for it
    CHECK(shelf.read().tune_by_id({1})->settings == 2);
    CHECK(shelf.read().setting_of_own({3})->titles.front() == "Lantern");
}

TEST_CASE("families: words of a person outlast imports and can be taken back", "[library][families]") {
    const FamiliesShelf shelf;
    shelf.say(3, 1, false);
    CHECK(shelf.ids() == Heads{1, 2, 3});
    shelf.import({tune_of_class("1", "Lamp", 11, 7), tune_of_class("2", "Net", 22, 8),
                  tune_of_class("3", "Lantern", 33, 7), tune_of_class("4", "Oar", 44, 9)});
    CHECK(shelf.ids() == Heads{1, 2, 3, 4});
    CHECK(shelf.read().verdicts() == std::vector<collection::Verdict>{{{1}, {3}, false}});
    shelf.say(1, 3, true);
    shelf.say(2, 4, true);
    CHECK(shelf.ids() == Heads{1, 2});
    shelf.say(4, 2, false);
    CHECK(shelf.ids() == Heads{1, 2, 4});
}

TEST_CASE("families: marks of tunes that come together count for all of them and come apart with them",
          "[library][families]") {
    const FamiliesShelf shelf;
    shelf.say(1, 3, false);
    const auto mark = [&](std::int64_t id, const std::string& tag, std::int64_t count) {
        library::Marks marks = library::Marks::change(shelf.file);
        marks.add_tag({id}, tune::read_tag(tag));
        marks.set_count({id}, count);
        marks.commit();
    };
    mark(1, "wedding", 2);
    mark(3, "thursday", 5);
    shelf.say(1, 3, true);
    CHECK(shelf.read().tune_by_id({1})->tags == std::vector<std::string>{"thursday", "wedding"});
    CHECK(shelf.read().tune_by_id({1})->count == 7);
    CHECK(shelf.read().marks().size() == 1);
    collection::Selection thursday;
    thursday.tag = "thursday";
    CHECK(shelf.read().select_tunes(thursday).matched == 1);
    shelf.say(1, 3, false);
    CHECK(shelf.read().tune_by_id({1})->count == 2);
    CHECK(shelf.read().tune_by_id({3})->tags == std::vector<std::string>{"thursday"});
    shelf.say(1, 3, true);
    mark(1, "wedding", 4);
    CHECK(shelf.read().tune_by_id({1})->count == 4);  // the count of all of them was said anew
}

TEST_CASE("families: a tune whose first setting is gone is shown by another", "[library][families]") {
    const FamiliesShelf shelf;
    shelf.import({tune_of_class("2", "Net", 22, 8), tune_of_class("3", "Lantern", 33, 7)});
    CHECK(shelf.ids() == Heads{2, 1});
    CHECK(shelf.read().tune_by_id({1})->titles.front() == "Lantern");
}

TEST_CASE("families: an id that no tune has is refused and nothing is written", "[library][families]") {
    const FamiliesShelf shelf;
    CHECK_THROWS(shelf.say(1, 99, true));
    CHECK(shelf.read().verdicts().empty());
}

TEST_CASE("families: of settings that pass alike the one nearest to the notes one has is taken",
          "[library][families]") {
    const support::Scratch scratch;
    const std::filesystem::path file = scratch / "l.db";
    collection::StoredSetting high = tune_of_class("1", "Lamp", 11, 7);
    high.facts.needed = sample::notes({81, 83, 86});
    collection::StoredSetting low = tune_of_class("2", "Lamp down", 12, 7);
    low.facts.needed = sample::notes({62, 64, 86});
    library::Intake intake = library::Intake::open(file);
    intake.store_file(sample::file("/t/a.abc", {high, low}));
    intake.close();
    const library::Library library = library::Library::open_existing(file);
    collection::Selection selection;
    CHECK(library.select_notes(selection).rows.front().setting.value == 1);
    selection.nearest_to = sample::notes({62, 64});
    CHECK(library.select_notes(selection).rows.front().setting.value == 2);
    CHECK(library.select_notes(selection).rows.front().needed == low.facts.needed);
    CHECK(library.select_notes(selection).rows.front().has_other_notes);
    selection.settings = true;
    CHECK(library.select_notes(selection).rows.size() == 2);
}

TEST_CASE("families: what is found by ear comes in its order, of each tune its best setting", "[library][families]") {
    const FamiliesShelf shelf;  // settings 1 and 3 are one tune
    collection::Selection selection;
    selection.goes = std::vector<tune::SettingId>{{3}, {2}, {1}};
    selection.sort = collection::Sort::heard;
    const auto settings = [&] {
        std::vector<std::int64_t> ids;
        for (const tune::TuneRecord& row : shelf.read().select_tunes(selection).rows) ids.push_back(row.setting.value);
        return ids;
    };
    CHECK(settings() == Heads{3, 2});
    selection.limit = 1;
    CHECK(settings() == Heads{3});
    selection.limit.reset();
    selection.goes = std::vector<tune::SettingId>{{2}};
    CHECK(settings() == Heads{2});
    CHECK(shelf.read().select_tunes(selection).left_out == 1);
    CHECK(shelf.read().select_tunes(selection).why.front().filter == collection::FilterBy::goes);
}

TEST_CASE("families: counts too large to add up are shown as large as can be", "[library][families]") {
    const FamiliesShelf shelf;
    shelf.say(1, 3, false);
    for (const std::int64_t id : {1, 3}) {
        library::Marks marks = library::Marks::change(shelf.file);
        marks.set_count({id}, std::numeric_limits<std::int64_t>::max());
        marks.commit();
    }
    shelf.say(1, 3, true);
    CHECK(shelf.read().tune_by_id({1})->count == 9'000'000'000'000'000'000);
    CHECK(shelf.read().marks().front().count == 9'000'000'000'000'000'000);
    shelf.say(1, 3, false);
    CHECK(shelf.read().tune_by_id({1})->count == std::numeric_limits<std::int64_t>::max());
}
