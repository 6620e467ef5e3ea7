#include "collection/sieve.h"

#include <catch2/catch.hpp>

#include "collection/sort_order.h"

namespace {

using collection::Columns;
using collection::Selection;
using collection::Sheet;
using collection::Sort;

music::NoteSet notes_of(std::initializer_list<int> midi) {
    music::NoteSet set;
    for (const int note : midi) set.add(note);
    return set;
}

music::Key key_of(const char* text) { return *music::parse_key(text); }

// Four settings of three tunes: tune 1 in two versions, a jig in G and a reel in D.
Sheet small_sheet() {
    Sheet sheet;
    sheet.tunes = {{1}, {1}, {3}, {4}};
    sheet.settings = {{1}, {2}, {3}, {4}};
    sheet.note_sets = {notes_of({62, 67, 74}), notes_of({62, 67}), notes_of({62, 66, 69}), {}};
    sheet.needed = {0, 1, 2, 3};
    sheet.ornaments = {3, 3, 0, 3};
    sheet.first_notes = {62, 67, 69, std::nullopt};
    sheet.last_notes = {67, 67, 62, std::nullopt};
    sheet.keys = {key_of("G"), key_of("G"), key_of("D"), std::nullopt};
    sheet.are_keys_said = {false, true, false, false};
    sheet.candidate_lists = {{key_of("G"), key_of("Em")}, {}};
    sheet.candidates = {0, 0, 1, 1};
    sheet.words = {"jig", "6/8", "reel", "4/4", ""};
    sheet.rhythms = {0, 0, 2, 4};
    sheet.meters = {1, 1, 3, 3};
    sheet.file_names = {{"Quay/b.abc", "/t/b.abc"}, {"hall/a.abc", "/t/a.abc"}};
    sheet.files = {0, 1, 0, 1};
    sheet.lines = {1, 9, 20, 1};
    sheet.first_titles = {"net", "lamp", "lamp", std::nullopt};
    sheet.titles = {"net\nold rope\n", "lamp\n", "lamp\n", ""};
    sheet.are_scraps = {false, false, false, true};
    sheet.tagged["wedding"] = {{3}};
    sheet.gone_tunes = 2;
    sheet.gone_settings = 5;
    return sheet;
}

std::vector<std::int64_t> passing(const Selection& selection) {
    const Sheet sheet = small_sheet();
    std::vector<std::int64_t> settings;
    for (const collection::Sifted& row : collection::sift(sheet, selection).passed)
        settings.push_back(sheet.settings[row.row].value);
    return settings;
}

using Settings = std::vector<std::int64_t>;

Settings sorted(Sort sort, std::optional<std::int64_t> limit = std::nullopt, const music::NoteSet& have = {}) {
    const Sheet sheet = small_sheet();
    Settings settings;
    for (const std::size_t row : collection::in_order(sheet, sort, limit, have))
        settings.push_back(sheet.settings[row].value);
    return settings;
}

}  // namespace

TEST_CASE("sieve: one setting a tune, the one that fails least", "[collection][sieve]") {
    CHECK(passing({}) == Settings{1, 3, 4});
    Selection fitting;
    fitting.fits = notes_of({62, 67});
    CHECK(passing(fitting) == Settings{2, 4});
    fitting.settings = true;
    CHECK(passing(fitting) == Settings{2, 4});
    Selection all;
    all.settings = true;
    CHECK(passing(all) == Settings{1, 2, 3, 4});
    Selection nearest;
    nearest.nearest_to = notes_of({62, 67});
    CHECK(passing(nearest) == Settings{2, 3, 4});
}

TEST_CASE("sieve: each filter by itself", "[collection][sieve]") {
    const auto by = [](auto set) {
        Selection selection;
        selection.settings = true;
        set(selection);
        return passing(selection);
    };
    CHECK(by([](Selection& s) { s.missing = {notes_of({62}), 1}; }) == Settings{2, 4});
    CHECK(by([](Selection& s) { s.missing = {notes_of({62}), 1, 1}; }) == Settings{2});
    CHECK(by([](Selection& s) { s.top = 68; }) == Settings{2});
    CHECK(by([](Selection& s) { s.bottom = 62; }) == Settings{1, 2, 3});
    CHECK(by([](Selection& s) { s.bottom = 63; }).empty());
    CHECK(by([](Selection& s) { s.uses = {notes_of({66, 78}), notes_of({69})}; }) == Settings{3});
    CHECK(by([](Selection& s) { s.avoids = notes_of({74}); }) == Settings{2, 3, 4});
    CHECK(by([](Selection& s) {
              s.avoids = notes_of({74});
              s.ornaments = true;
          }) == Settings{2, 4});
    CHECK(by([](Selection& s) { s.rhythm = "Jig"; }) == Settings{1, 2});
    CHECK(by([](Selection& s) { s.meter = "4/4"; }) == Settings{3, 4});
    CHECK(by([](Selection& s) { s.tonic = 2; }) == Settings{3});
    CHECK(by([](Selection& s) { s.mode = music::Mode::major; }) == Settings{1, 2, 3});
    CHECK(by([](Selection& s) { s.starts_on = notes_of({69, 67}); }) == Settings{2, 3});
    CHECK(by([](Selection& s) { s.ends_on = notes_of({67}); }) == Settings{1, 2});
    CHECK(by([](Selection& s) { s.span = 7; }) == Settings{2, 3});
    CHECK(by([](Selection& s) { s.octave = collection::OctaveRange::any; }) == Settings{1, 2, 3});
    CHECK(by([](Selection& s) { s.title = "OLD n"; }) == Settings{1});
    CHECK(by([](Selection& s) { s.title = "ope"; }).empty());
    CHECK(by([](Selection& s) { s.title = "!"; }) == Settings{1, 2, 3, 4});
    CHECK(by([](Selection& s) { s.file = "QUAY"; }) == Settings{1, 3});
    CHECK(by([](Selection& s) { s.tag = "Wedding"; }) == Settings{3});
    CHECK(by([](Selection& s) { s.tag = "nobody's"; }).empty());
    CHECK(by([](Selection& s) { s.state = {{{1}}, false}; }) == Settings{1, 2});
    CHECK(by([](Selection& s) { s.state = {{{1}}, true}; }) == Settings{3, 4});
    CHECK(by([](Selection& s) { s.goes = {{4}, {2}}; }) == Settings{2, 4});
    CHECK(by([](Selection& s) { s.scraps = false; }) == Settings{1, 2, 3});
}

TEST_CASE("sieve: what was left out, and which filter alone keeps it away", "[collection][sieve]") {
    Selection selection;
    selection.fits = notes_of({62, 67, 74});
    selection.rhythm = "reel";
    selection.scraps = false;
    const collection::Tally tally = collection::sift(small_sheet(), selection).tally;
    CHECK(tally.matched == 0);
    CHECK(tally.left_out == 3);
    CHECK(tally.gone == 2);
    CHECK(tally.why == std::vector<collection::LeftOut>{{collection::FilterBy::fits, 1, 1},
                                                        {collection::FilterBy::rhythm, 2, 1},
                                                        {collection::FilterBy::scraps, 1, 0}});
    selection.settings = true;
    CHECK(collection::sift(small_sheet(), selection).tally.gone == 5);
}

TEST_CASE("sieve: an open key is counted unless a person said it", "[collection][sieve]") {
    Selection selection;
    selection.settings = true;
    selection.tonic = 4;
    CHECK(collection::sift(small_sheet(), selection).tally.open_keys == 1);
    selection.mode = music::Mode::minor;
    CHECK(collection::sift(small_sheet(), selection).tally.open_keys == 1);
    selection.mode = music::Mode::dorian;
    CHECK(collection::sift(small_sheet(), selection).tally.open_keys == 0);
}

TEST_CASE("sort order: each is total, and what has nothing to go by comes last", "[collection][sort-order]") {
    CHECK(sorted(Sort::title) == Settings{3, 2, 1, 4});
    CHECK(sorted(Sort::file) == Settings{1, 3, 4, 2});
    CHECK(sorted(Sort::key) == Settings{3, 2, 1, 4});
    CHECK(sorted(Sort::rhythm) == Settings{2, 1, 3, 4});
    CHECK(sorted(Sort::range) == Settings{2, 3, 1, 4});
    CHECK(sorted(Sort::notes) == Settings{2, 3, 1, 4});
    CHECK(sorted(Sort::missing, std::nullopt, notes_of({62, 66, 69})) == Settings{3, 4, 2, 1});
    CHECK(sorted(Sort::added) == Settings{4, 3, 2, 1});
    CHECK(sorted(Sort::title, 2) == Settings{3, 2});
    CHECK(sorted(Sort::title, 0).empty());
}

TEST_CASE("sheet: a selection asks for the columns it looks at", "[collection][sheet]") {
    CHECK(collection::columns_of(Selection{}).empty());
    Selection selection;
    selection.octave = collection::OctaveRange::home;
    CHECK(collection::columns_of(selection).has(collection::Column::key));
    CHECK_FALSE(collection::columns_of(selection).has(collection::Column::candidates));
}
