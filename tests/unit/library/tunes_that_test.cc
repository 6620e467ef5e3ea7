// select_tunes and select_notes against a slow, obvious filter over the same records.
#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <random>
#include <set>
#include <tuple>

#include "base/utf8.h"
#include "library/database.h"
#include "library/intake.h"
#include "library/library.h"
#include "library/marks.h"
#include "sample.h"
#include "support/scratch.h"
#include "tune/title.h"

using collection::OctaveRange;
using collection::Selection;
using collection::Sort;
using library::Library;
using tune::TuneRecord;

namespace {

constexpr int kFourTunes = 400;
const char* const kWords[] = {"Lamp",    "Rope",          "Net",       "\xC3\x89toile",
                              "The Oar", "Harbour Light", "Rope-walk", "O'Hara"};
const char* const kAskedTitles[] = {"ro", "lamp ro", "ETOILE", "ohara", "the oar", "walk", "zzz", "*", "\"OR\" a"};
const char* const kAskedFiles[] = {"hall", "quay/", "a.ABC", "none"};
const char* const kTags[] = {"Wedding", "thursday", "slow set", "F\xC3\xAAte"};
const char* const kAskedTags[] = {"wedding", "THURSDAY", "slow  set", "fete", "nobody's"};
const char* const kRhythms[] = {"reel", "jig", "slip jig", "waltz"};
const music::Meter kMeters[] = {{music::Meter::Kind::common, 4, 4}, {music::Meter::Kind::fraction, 6, 8}, {}};

int below(std::mt19937& random, int limit) { return static_cast<int>(random() % static_cast<unsigned>(limit)); }

music::NoteSet random_notes(std::mt19937& random, int from, int to, int percent) {
    music::NoteSet notes;
    for (int note = from; note <= to; ++note)
        if (below(random, 100) < percent) notes.add(note);
    return notes;
}

music::Key random_key(std::mt19937& random) {
    return {{static_cast<music::Letter>(below(random, 7)), static_cast<std::int8_t>(below(random, 3) - 1)},
            music::kModes[static_cast<std::size_t>(below(random, 7))]};
}

collection::StoredSetting random_setting(std::mt19937& random, int i) {
    std::string title = below(random, 10) == 0 ? "" : kWords[below(random, 8)];
    if (!title.empty() && below(random, 2) == 0) title += std::string(" ") + kWords[below(random, 8)];
    collection::StoredSetting made = sample::setting(std::to_string(i), title, static_cast<std::uint64_t>(i));
    if (!title.empty() && below(random, 3) == 0) made.titles.push_back(kWords[below(random, 8)]);
    const int low = 55 + below(random, 12);
    made.facts.needed =
        below(random, 12) == 0 ? music::NoteSet() : random_notes(random, low, low + 5 + below(random, 10), 60);
    if (below(random, 3) == 0) {  // from a note to the one an octave above
        const int from = made.facts.needed.empty() ? 60 : made.facts.needed.lowest();
        made.facts.needed = sample::notes({from, from + 7, from + 12});
    }
    made.facts.ornaments = below(random, 3) == 0 ? random_notes(random, 70, 90, 10) : music::NoteSet();
    made.facts.first_note = made.facts.last_note = std::nullopt;
    if (!made.facts.needed.empty()) {
        made.facts.first_note = made.facts.needed.lowest();
        made.facts.last_note = made.facts.needed.highest();
    }
    made.facts.key = std::nullopt;
    if (below(random, 10) != 0)
        made.facts.key = tune::KeyFinding{{random_key(random), random_key(random)}, below(random, 2) == 0, {}};
    if (made.facts.key && !made.facts.key->decided && below(random, 2) == 0)
        made.facts.key->stated = made.facts.key->candidates.back();
    if (below(random, 8) != 0) made.facts.rhythm = {kRhythms[below(random, 4)], tune::Basis::stated};
    made.facts.meter = {kMeters[below(random, 3)], tune::Basis::stated};
    if (below(random, 6) == 0) made.facts.scrap = tune::kScraps[static_cast<std::size_t>(below(random, 3))];
    return made;
}

void fill(const std::filesystem::path& file) {
    std::mt19937 random(20);
    library::Intake intake = library::Intake::open(file);
    for (int f = 0; f < 8; ++f) {
        std::vector<collection::StoredSetting> settings;
        for (int i = 0; i < kFourTunes / 8; ++i) settings.push_back(random_setting(random, f * 100 + i + 1));
        auto made = sample::file("/t/" + std::string(1, static_cast<char>('h' - f)) + ".abc", settings);
        made.shown = (f % 2 == 0 ? "hall/" : "Quay/") + made.shown;
        intake.store_file(made);
    }
    intake.close();
    library::Marks marks = library::Marks::change(file);
    for (std::int64_t id = 1; id <= kFourTunes - 50; ++id) {  // the last ones have none
        for (const char* tag : kTags)
            if (below(random, 3) == 0) marks.add_tag({id}, tune::read_tag(tag));
        if (below(random, 2) == 0) marks.set_count({id}, below(random, 20));
    }
    marks.commit();
}

bool is_tagged(const TuneRecord& record, const std::string& tag) {
    return std::any_of(record.tags.begin(), record.tags.end(),
                       [&](const std::string& its) { return tune::fold_tag(its) == tune::fold_tag(tag); });
}

music::NoteSet needed_by(const Selection& s, const TuneRecord& record) {
    return s.ornaments ? record.needed | record.ornaments : record.needed;
}

std::vector<std::string> words_in(const std::string& folded) {
    std::vector<std::string> words;
    std::string word;
    for (const char c : folded + " ") {
        if (c != ' ')
            word += c;
        else if (!word.empty())
            words.push_back(std::exchange(word, {}));
    }
    return words;
}

bool titles_have(const TuneRecord& record, const std::string& asked) {
    std::vector<std::string> words;
    for (const std::string& title : record.titles)
        for (std::string& word : words_in(tune::fold_title(title))) words.push_back(std::move(word));
    for (const std::string& beginning : words_in(tune::fold_title(asked)))
        if (std::none_of(words.begin(), words.end(),
                         [&](const std::string& word) { return word.starts_with(beginning); }))
            return false;
    return true;
}

// Which of the filters given does the record fail?
std::set<std::string> fails(const Selection& s, const TuneRecord& record) {
    std::set<std::string> failed;
    const std::vector<int> notes = needed_by(s, record).midi_numbers();
    const auto count_in = [&](const music::NoteSet& set) {
        return std::count_if(notes.begin(), notes.end(), [&](int n) { return set.has(n); });
    };
    const auto all = static_cast<std::ptrdiff_t>(notes.size());
    if (s.fits && count_in(*s.fits) != all) failed.insert("fits");
    if (s.missing &&
        (all - count_in(s.missing->have) > s.missing->at_most || all - count_in(s.missing->have) < s.missing->at_least))
        failed.insert("missing");
    if (s.top && (notes.empty() || notes.back() > *s.top)) failed.insert("top");
    if (s.bottom && (notes.empty() || notes.front() < *s.bottom)) failed.insert("bottom");
    for (const auto& entry : s.uses)
        if (count_in(entry) == 0) failed.insert("uses");
    if (s.avoids && count_in(*s.avoids) != 0) failed.insert("avoids");
    if (s.rhythm && (!record.rhythm || record.rhythm->value != base::fold(*s.rhythm))) failed.insert("rhythm");
    if (s.meter && record.meter != *s.meter) failed.insert("meter");
    if (s.tonic && (!record.key || record.key->tonic.pitch_class() != *s.tonic)) failed.insert("tonic");
    if (s.mode && (!record.key || record.key->mode != *s.mode)) failed.insert("mode");
    if (s.starts_on && (!record.first_note || !s.starts_on->has(*record.first_note))) failed.insert("starts-on");
    if (s.ends_on && (!record.last_note || !s.ends_on->has(*record.last_note))) failed.insert("ends-on");
    if (s.span && (notes.empty() || notes.back() - notes.front() > *s.span)) failed.insert("span");
    if (s.octave == OctaveRange::any && (notes.empty() || notes.back() - notes.front() > 12)) failed.insert("octave");
    if (s.octave == OctaveRange::home && (notes.empty() || !record.key || notes.back() != notes.front() + 12 ||
                                          notes.front() % 12 != record.key->tonic.pitch_class()))
        failed.insert("octave");
    if (s.title && !titles_have(record, *s.title)) failed.insert("title");
    if (s.file && base::fold(record.file).find(base::fold(*s.file)) == std::string::npos) failed.insert("file");
    if (s.tag && !is_tagged(record, *s.tag)) failed.insert("tag");
    if (!s.scraps && record.scrap) failed.insert("scraps");
    return failed;
}

bool may_be(const Selection& s, const TuneRecord& record) {
    return std::any_of(record.key_candidates.begin(), record.key_candidates.end(), [&](const music::Key& key) {
        return (!s.tonic || key.tonic.pitch_class() == *s.tonic) && (!s.mode || key.mode == *s.mode);
    });
}

void add_filter(Selection& s, int which, std::mt19937& random) {
    switch (which) {
        case 0:
            s.fits = random_notes(random, 55, 85, 85);
            break;
        case 1:
            s.missing = {random_notes(random, 55, 85, 60), 1 + below(random, 4), below(random, 2)};
            break;
        case 2:
            s.uses = {random_notes(random, 55, 85, 15), random_notes(random, 55, 85, 15)};
            break;
        case 3:
            s.avoids = random_notes(random, 55, 85, 8);
            break;
        case 4:
            s.rhythm = below(random, 2) == 0 ? "Slip Jig" : kRhythms[below(random, 4)];
            break;
        case 5:
            s.meter = music::to_string(kMeters[below(random, 3)]);
            break;
        case 6:
            s.tonic = below(random, 12);
            break;
        case 7:
            s.mode = music::kModes[static_cast<std::size_t>(below(random, 7))];
            break;
        case 8:
            s.starts_on = random_notes(random, 50, 75, 40);
            break;
        case 9:
            s.ends_on = random_notes(random, 60, 80, 40);
            break;
        case 10:
            s.span = below(random, 18);
            s.top = 90 - below(random, 20);
            s.bottom = 50 + below(random, 16);
            break;
        case 11:
            s.octave = below(random, 2) == 0 ? OctaveRange::any : OctaveRange::home;
            break;
        case 12:
            s.title = kAskedTitles[below(random, 9)];
            break;
        case 13:
            s.file = kAskedFiles[below(random, 4)];
            break;
        case 14:
            s.tag = kAskedTags[below(random, 5)];
            break;
        default:
            s.scraps = false;
            break;
    }
}

std::string word(const TuneRecord& r) { return r.titles.empty() ? "" : tune::fold_title(r.titles.front()); }

// The order as selection.h tells it, by plain comparison of records.
bool comes_before(Sort sort, const TuneRecord& a, const TuneRecord& b) {
    const auto place = [&](const TuneRecord& r) -> std::tuple<bool, std::int64_t, std::int64_t, std::string> {
        const std::vector<int> n = r.needed.midi_numbers();
        switch (sort) {
            case Sort::key:
                return {!r.key, r.key ? r.key->tonic.pitch_class() : 0, r.key ? static_cast<int>(r.key->mode) : 0, ""};
            case Sort::rhythm:
                return {!r.rhythm, 0, 0, r.rhythm ? r.rhythm->value : ""};
            case Sort::range:
                return {n.empty(), n.empty() ? 0 : n.back() - n.front(), 0, ""};
            case Sort::notes:
                return {n.empty(), static_cast<std::int64_t>(n.size()), 0, ""};
            case Sort::added:
                return {false, -r.setting.value, 0, ""};
            default:
                return {false, 0, 0, ""};
        }
    };
    if (sort == Sort::file) return std::tuple(a.file, a.line, a.id) < std::tuple(b.file, b.line, b.id);
    return std::tuple(place(a), a.titles.empty(), word(a), a.file, a.line, a.id) <
           std::tuple(place(b), b.titles.empty(), word(b), b.file, b.line, b.id);
}

void compare(const Library& library, const Selection& s, const std::vector<TuneRecord>& everything) {
    std::vector<TuneRecord> expected;
    std::map<std::string, std::pair<std::int64_t, std::int64_t>> why;
    std::int64_t open_keys = 0;
    for (const TuneRecord& record : everything) {
        const auto failed = fails(s, record);
        if (failed.empty()) expected.push_back(record);
        const bool is_by_key_alone = !failed.empty() && failed.size() == failed.count("tonic") + failed.count("mode");
        if (is_by_key_alone && may_be(s, record)) ++open_keys;
        for (const std::string& filter : failed) {
            ++why[filter].first;
            if (failed.size() == 1) ++why[filter].second;
        }
    }
    const auto matched = static_cast<std::int64_t>(expected.size());
    std::sort(expected.begin(), expected.end(),
              [&](const TuneRecord& a, const TuneRecord& b) { return comes_before(s.sort, a, b); });
    if (s.limit && matched > *s.limit) expected.resize(static_cast<std::size_t>(*s.limit));

    const collection::Answer answer = library.select_tunes(s);
    REQUIRE(answer.matched == matched);
    REQUIRE(answer.left_out == static_cast<std::int64_t>(everything.size()) - matched);
    REQUIRE(answer.rows == expected);
    REQUIRE(answer.open_keys == open_keys);
    for (const collection::LeftOut& left : answer.why) {
        const std::string filter(collection::filter_token(left.filter));
        INFO(filter);
        const auto told = why[filter];
        REQUIRE(left.fails == told.first);
        REQUIRE(left.alone == told.second);
        why.erase(filter);
    }
    REQUIRE(why.empty());

    const collection::NotesAnswer notes = library.select_notes(s);
    REQUIRE(notes.matched == matched);
    REQUIRE(static_cast<std::int64_t>(notes.rows.size()) == matched);
    REQUIRE(notes.why == answer.why);
    std::map<std::int64_t, music::NoteSet> by_tune;
    for (const TuneRecord& record : everything) by_tune[record.id.value] = needed_by(s, record);
    for (const collection::TuneNotes& row : notes.rows) REQUIRE(row.needed == by_tune.at(row.id.value));
    REQUIRE(
        std::is_sorted(notes.rows.begin(), notes.rows.end(), [](const auto& a, const auto& b) { return a.id < b.id; }));
}

}  // namespace

TEST_CASE("tunes that: each filter alone, with and without grace notes", "[library][query]") {
    const support::Scratch scratch;
    fill(scratch / "l.db");
    const Library library = Library::open_existing(scratch / "l.db");
    const auto everything = sample::all_settings(library);
    REQUIRE(everything.size() == kFourTunes);
    std::vector<tune::SettingId> scraps;
    for (const TuneRecord& record : everything)
        if (record.scrap) scraps.push_back(record.setting);
    std::sort(scraps.begin(), scraps.end());
    CHECK(scraps.size() > 40);
    CHECK(library.scraps() == scraps);
    std::mt19937 random(7);
    for (int which = 0; which < 16; ++which)
        for (int round = 0; round < 12; ++round) {
            Selection s;
            add_filter(s, which, random);
            s.ornaments = round % 2 == 1;
            INFO("filter " << which << " round " << round);
            compare(library, s, everything);
        }
}

TEST_CASE("tunes that: filters together, in every order, with limits", "[library][query]") {
    const support::Scratch scratch;
    fill(scratch / "l.db");
    const Library library = Library::open_existing(scratch / "l.db");
    const auto everything = sample::all_settings(library);
    std::mt19937 random(8);
    const Sort sorts[] = {Sort::title, Sort::key, Sort::rhythm, Sort::range, Sort::notes, Sort::file, Sort::added};
    for (int round = 0; round < 300; ++round) {
        Selection s;
        for (int filters = below(random, 4); filters > 0; --filters) add_filter(s, below(random, 16), random);
        s.ornaments = below(random, 4) == 0;
        s.settings = below(random, 2) == 0;
        s.sort = sorts[round % 7];
        if (below(random, 3) == 0) s.limit = below(random, 30);
        INFO("round " << round);
        compare(library, s, everything);
    }
}

TEST_CASE("tunes that: one row a tune, by its best setting; one row a setting when asked", "[library][query]") {
    const support::Scratch scratch;
    {
        library::Intake intake = library::Intake::open(scratch / "l.db");
        auto low = sample::setting("1", "Lamp in D", 11);
        low.facts.needed = sample::notes({62, 66, 69});
        auto high = sample::setting("2", "Lamp in G", 22);
        high.facts.needed = sample::notes({67, 71, 74});
        intake.store_file(sample::file("/t/a.abc", {low, high, sample::setting("3", "Rope", 33)}));
        intake.close();
        const library::Database database(scratch / "l.db", library::Access::write);
        database.exec("UPDATE setting SET tune_id = 1 WHERE id = 2");
    }
    const Library library = Library::open_existing(scratch / "l.db");
    Selection s;
    s.uses = {sample::notes({74})};
    collection::Answer answer = library.select_tunes(s);
    CHECK(answer.matched == 1);
    CHECK(answer.left_out == 1);
    REQUIRE(answer.rows.size() == 1);
    CHECK(answer.rows[0].id.value == 1);
    CHECK(answer.rows[0].titles.front() == "Lamp in G");
    s.settings = true;
    answer = library.select_tunes(s);
    CHECK(answer.matched == 1);
    CHECK(answer.left_out == 2);
    CHECK(library.settings_of({1}).size() == 2);
    CHECK(library.select_notes({}).rows.size() == 2);
    CHECK(library.counts().tunes == 2);
}

TEST_CASE("tunes that: what is gone is counted and not shown", "[library][query]") {
    const support::Scratch scratch;
    library::Intake intake = library::Intake::open(scratch / "l.db");
    intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Lamp", 11), sample::setting("2", "Rope", 22)}));
    intake.store_file(sample::file("/t/a.abc", {sample::setting("1", "Lamp", 11)}));
    const collection::Answer answer = Library::open_existing(scratch / "l.db").select_tunes({});
    CHECK(answer.matched == 1);
    CHECK(answer.left_out == 0);
    CHECK(answer.gone == 1);
    CHECK(answer.why.empty());
}

TEST_CASE("tunes that: the order of import does not show in the order of the answer", "[library][query]") {
    const support::Scratch scratch;
    const auto a = sample::file("/t/a.abc", {sample::setting("1", "Rope", 1), sample::setting("2", "Lamp", 2)});
    const auto b = sample::file("/t/b.abc", {sample::setting("1", "Lamp", 3), sample::setting("2", "", 4)});
    library::Intake one = library::Intake::open(scratch / "1.db");
    one.store_file(a);
    one.store_file(b);
    library::Intake two = library::Intake::open(scratch / "2.db");
    two.store_file(b);
    two.store_file(a);
    const auto listed = [&](const char* name) {
        std::string text;
        for (const auto& row : Library::open_existing(scratch / name).select_tunes({}).rows)
            text += (row.titles.empty() ? "-" : row.titles.front()) + " " + row.file + ":" + std::to_string(row.line) +
                    "\n";
        return text;
    };
    CHECK(listed("1.db") == "Lamp a.abc:11\nLamp b.abc:1\nRope a.abc:1\n- b.abc:11\n");
    CHECK(listed("2.db") == listed("1.db"));
}

TEST_CASE("tunes that: sort tokens", "[library][query]") {
    for (const Sort sort : {Sort::title, Sort::key, Sort::rhythm, Sort::range, Sort::notes, Sort::file, Sort::added})
        CHECK(collection::parse_sort(collection::sort_token(sort)) == sort);
    CHECK_FALSE(collection::parse_sort("Title"));
}
