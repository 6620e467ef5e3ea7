// One question, one answer: a collection in memory and a library of the same tunes, asked everything.
#include <catch2/catch.hpp>
#include <random>

#include "collection/memory.h"
#include "library/journal.h"
#include "library/library.h"
#include "library/marks.h"
#include "library/players.h"
#include "library/verdicts.h"
#include "people/fold.h"
#include "support/scratch.h"
#include "unit/library/sample.h"

namespace {

using collection::Collection;
using collection::Memory;
using collection::Selection;
using collection::Sort;

constexpr int kTunes = 120;
const char* const kTitleWords[] = {"Lamp", "The Rope", "Net", "\xC3\x89toile", "Oar, The", "O'Hara"};
const char* const kKinds[] = {"reel", "jig", "slip jig", "waltz"};

int drawn(std::mt19937& random, int limit) { return static_cast<int>(random() % static_cast<unsigned>(limit)); }

music::NoteSet some_notes(std::mt19937& random, int from, int count) {
    music::NoteSet notes;
    for (int note = from; note < from + count; ++note)
        if (drawn(random, 100) < 60) notes.add(note);
    return notes;
}

music::Key some_key(std::mt19937& random) {
    return {{static_cast<music::Letter>(drawn(random, 7)), static_cast<std::int8_t>(drawn(random, 3) - 1)},
            music::kModes[static_cast<std::size_t>(drawn(random, 7))]};
}

// Of few melodies, so that many settings are one tune.
collection::StoredSetting some_setting(std::mt19937& random, int number) {
    std::string title = drawn(random, 8) == 0 ? "" : kTitleWords[drawn(random, 6)];
    if (!title.empty() && drawn(random, 2) == 0) title += std::string(" ") + kTitleWords[drawn(random, 6)];
    collection::StoredSetting made = sample::setting(std::to_string(number), title, static_cast<std::uint64_t>(number));
    if (!title.empty() && drawn(random, 3) == 0) made.titles.push_back(kTitleWords[drawn(random, 6)]);
    if (drawn(random, 4) != 0) made.facts.melody_class = static_cast<std::uint64_t>(drawn(random, 60) + 1);
    made.facts.needed = drawn(random, 12) == 0 ? music::NoteSet() : some_notes(random, 55 + drawn(random, 12), 13);
    made.facts.ornaments = some_notes(random, 76, 3);
    made.facts.first_note = made.facts.last_note = std::nullopt;
    if (!made.facts.needed.empty()) {
        made.facts.first_note = made.facts.needed.lowest();
        made.facts.last_note = made.facts.needed.highest();
    }
    made.facts.key = std::nullopt;
    if (drawn(random, 10) != 0)
        made.facts.key = tune::KeyFinding{{some_key(random), some_key(random)}, drawn(random, 2) == 0, {}};
    if (made.facts.key && !made.facts.key->decided && drawn(random, 2) == 0)
        made.facts.key->stated = made.facts.key->candidates.back();
    // As the reader does it: what K: says names a tune whose notes leave the key open.
    const bool is_named_by_it = made.facts.key && made.facts.key->stated;
    made.key_stated = is_named_by_it ? music::to_string(*made.facts.key->stated) : "none";
    if (drawn(random, 8) != 0) made.facts.rhythm = {kKinds[drawn(random, 4)], tune::Basis::stated};
    if (drawn(random, 3) == 0) made.facts.rhythm_possible = {"march", "polka"};
    made.facts.meter = {{music::Meter::Kind::fraction, drawn(random, 2) == 0 ? std::uint16_t{6} : std::uint16_t{9}, 8},
                        tune::Basis::stated};
    if (drawn(random, 6) == 0) made.facts.scrap = tune::kScraps[static_cast<std::size_t>(drawn(random, 3))];
    if (drawn(random, 3) == 0) made.facts.leaps.largest = tune::Leap{60, 67, 1};
    made.form = "AABB";
    made.outline = std::string("outline ") + std::to_string(number);
    if (drawn(random, 4) == 0)
        made.oddities.push_back({static_cast<std::uint32_t>(number), 3,
                                 drawn(random, 2) == 0 ? tune::OddityKind::key_label : tune::OddityKind::rhythm_meter,
                                 base::Severity::warning, "odd", "mend it"});
    return made;
}

std::vector<collection::StoredFile> some_files() {
    std::mt19937 random(77);
    std::vector<collection::StoredFile> files;
    for (int f = 0; f < 6; ++f) {
        std::vector<collection::StoredSetting> settings;
        for (int i = 0; i < kTunes / 6; ++i) settings.push_back(some_setting(random, f * 100 + i + 1));
        files.push_back(sample::file("/t/" + std::string(1, static_cast<char>('h' - f)) + ".abc", settings,
                                     f % 2 == 0 ? "L:1/8" : ""));
        files.back().shown = (f % 2 == 0 ? "hall/" : "Quay/") + files.back().shown;
        files.back().diagnostics.push_back({12, 2, base::Severity::warning, "abc-note-length", "a length"});
    }
    return files;
}

// Tags, counts, kinds, keys, verdicts and players, told to the library; the memory gets what its journal comes to.
void say_much(const std::filesystem::path& file) {
    std::mt19937 random(78);
    library::Marks marks = library::Marks::change(file);
    for (std::int64_t id = 1; id <= kTunes; id += 3) {
        marks.add_tag({id}, tune::read_tag(id % 2 == 0 ? "Wedding" : "slow set"));
        if (id % 4 == 0) marks.set_count({id}, drawn(random, 20));
        if (id % 5 == 0) marks.set_rhythm({id}, std::string("hornpipe"));
        if (id % 7 == 0) marks.set_key({id}, some_key(random));
        if (id % 6 == 1) marks.set_alias({id}, "Alias No. " + std::to_string(id % 12));
    }
    marks.commit();
    library::say_same(file, {1}, {2}, true);
    library::say_same(file, {3}, {40}, true);
    library::say_same(file, {5}, {6}, false);
    library::Players players = library::Players::change(file);
    for (const char* name : {"Ina", "Bram"}) {
        const auto player = players.add({{}, tune::read_player_name(name), std::string("bc21"), std::nullopt});
        for (int event = 0; event < 30; ++event)
            players.record(*player, {drawn(random, kTunes) + 1},
                           {base::read_date("2026-11-0" + std::to_string(drawn(random, 9) + 1)),
                            static_cast<tune::PlayerEvent>(drawn(random, 6))});
        players.wish(*player, {drawn(random, kTunes) + 1}, true);
        players.exclude(*player, {drawn(random, kTunes) + 1}, std::string("too long"));
    }
    const auto bram = players.named(tune::read_player_name("Bram"));
    const auto ina = players.named(tune::read_player_name("Ina"));
    players.set_class(tune::read_player_name("Mondays"), {ina->id, bram->id});
    players.set_class(tune::read_player_name("Later"), {ina->id});
    players.commit();
}

// Of records, which tune it is and what is told of it; of anything else nothing.
template <typename Value>
std::string first_difference(const Value&, const Value&) {
    return "";
}
std::string first_difference(const std::vector<tune::TuneRecord>& ours, const std::vector<tune::TuneRecord>& theirs) {
    for (std::size_t at = 0; at < std::min(ours.size(), theirs.size()); ++at) {
        if (ours[at] == theirs[at]) continue;
        std::string text = "tune ";
        for (const tune::TuneRecord& record : {ours[at], theirs[at]})
            text += std::to_string(record.own.value) + " " + record.file + ":" + std::to_string(record.line) + " of " +
                    std::to_string(record.settings) + ", " + record.key_stated + ", " +
                    (record.key ? music::to_string(*record.key) : "") +
                    std::string(tune::basis_token(record.key_basis)) + " " +
                    (record.rhythm ? record.rhythm->value : "") + " " + record.form + ", tags " +
                    std::to_string(record.tags.size()) + ", count " + std::to_string(record.count.value_or(-1)) + " | ";
        return text;
    }
    return std::to_string(ours.size()) + " and " + std::to_string(theirs.size());
}

struct Both {
    support::Scratch scratch;
    library::Library library;
    Memory memory;

    Both() : library(made()) {
        memory.take(some_files());
        const std::vector<people::Entry> said = library::all_said(scratch / "l.db");
        memory.keep(people::fold(said, [](const people::NamedTune& tune) { return tune.id; }));
    }

    library::Library made() const {
        library::Intake intake = library::Intake::open(scratch / "l.db");
        for (const collection::StoredFile& file : some_files()) intake.store_file(file);
        intake.close();
        say_much(scratch / "l.db");
        return library::Library::open_existing(scratch / "l.db");
    }

    template <typename Ask>
    void agree(Ask ask) const {
        INFO(first_difference(ask(static_cast<const Collection&>(memory)),
                              ask(static_cast<const Collection&>(library))));
        CHECK(ask(static_cast<const Collection&>(memory)) == ask(static_cast<const Collection&>(library)));
    }
};

Selection some_selection(std::mt19937& random) {
    Selection s;
    for (int filters = drawn(random, 4); filters > 0; --filters) {
        switch (drawn(random, 14)) {
            case 12:
                s.top = 65 + drawn(random, 20);
                break;
            case 13:
                s.bottom = 55 + drawn(random, 15);
                break;
            case 0:
                s.fits = some_notes(random, 55, 30);
                break;
            case 1:
                s.missing = {some_notes(random, 55, 30), 1 + drawn(random, 4), drawn(random, 2)};
                break;
            case 2:
                s.uses = {some_notes(random, 55, 10)};
                break;
            case 3:
                s.avoids = some_notes(random, 60, 3);
                break;
            case 4:
                s.rhythm = drawn(random, 2) == 0 ? "Hornpipe" : kKinds[drawn(random, 4)];
                break;
            case 5:
                s.meter = "6/8";
                break;
            case 6:
                s.tonic = drawn(random, 12);
                break;
            case 7:
                s.mode = music::kModes[static_cast<std::size_t>(drawn(random, 7))];
                break;
            case 8:
                s.title = "ro";
                break;
            case 9:
                s.file = "hall";
                break;
            case 10:
                s.tag = "wedding";
                break;
            default:
                s.scraps = false;
                break;
        }
    }
    s.ornaments = drawn(random, 3) == 0;
    s.settings = drawn(random, 2) == 0;
    const Sort sorts[] = {Sort::title, Sort::key,     Sort::rhythm, Sort::range,
                          Sort::notes, Sort::missing, Sort::file,   Sort::added};
    s.sort = sorts[drawn(random, 7)];
    if (drawn(random, 3) == 0) s.limit = drawn(random, 30);
    if (drawn(random, 4) == 0) s.nearest_to = some_notes(random, 55, 20);
    return s;
}

}  // namespace

TEST_CASE("both: whatever is selected, the same tunes and the same tally", "[collection][both]") {
    const Both both;
    std::mt19937 random(79);
    for (int round = 0; round < 300; ++round) {
        const Selection selection = some_selection(random);
        CAPTURE(round);
        both.agree([&](const Collection& one) { return one.select_tunes(selection).rows; });
        both.agree([&](const Collection& one) { return static_cast<collection::Tally>(one.select_tunes(selection)); });
        both.agree([&](const Collection& one) { return one.select_notes(selection).rows; });
    }
}

TEST_CASE("both: found by ear, in the order they were found", "[collection][both]") {
    const Both both;
    Selection selection;
    selection.goes = {{90}, {3}, {57}, {12}};
    selection.sort = Sort::heard;
    both.agree([&](const Collection& one) { return one.select_tunes(selection).rows; });
    selection.limit = 2;
    both.agree([&](const Collection& one) { return one.select_tunes(selection).rows; });
}

TEST_CASE("both: tunes by title and by id", "[collection][both]") {
    const Both both;
    for (const char* title : {"lamp", "the rope", "ro", "o'hara", "", "nothing of that name"}) {
        CAPTURE(title);
        both.agree([&](const Collection& one) { return one.tunes_titled(title); });
        both.agree([&](const Collection& one) { return one.settings_titled(title); });
    }
    both.agree([](const Collection& one) {
        std::vector<std::tuple<std::string, std::vector<std::string>, std::vector<std::string>>> titles;
        for (const tune::TitledTune& titled : one.titled_tunes())
            titles.emplace_back(titled.title, titled.folded, titled.aliases);
        return titles;
    });
    both.agree([](const Collection& one) { return one.aliases(); });
    std::vector<tune::TuneId> ids;
    std::vector<tune::SettingId> settings;
    for (std::int64_t id = 0; id <= kTunes + 1; ++id) {
        ids.push_back({id});
        settings.push_back({id});
        both.agree([&](const Collection& one) { return one.settings_of({id}); });
        both.agree([&](const Collection& one) { return one.setting_of_own({id}); });
    }
    both.agree([&](const Collection& one) { return one.tunes_by_id(ids); });
    both.agree([&](const Collection& one) { return one.first_titles(settings); });
    both.agree([&](const Collection& one) { return one.own_ids(settings); });
    CHECK(both.memory.tune_by_id({2})->id == tune::TuneId{1});
}

TEST_CASE("both: kinds, scraps, melodies, texts and what is odd", "[collection][both]") {
    const Both both;
    both.agree([](const Collection& one) { return one.setting_kinds(); });
    both.agree([](const Collection& one) { return one.scraps(); });
    both.agree([](const Collection& one) {
        std::vector<std::string> all;
        one.visit_outlines([&](const collection::StoredOutline& outline) {
            all.push_back(std::to_string(outline.setting.value) + " " + std::to_string(outline.tune.value) + " " +
                          std::to_string(outline.own.value) + " " + std::string(outline.bytes));
        });
        return all;
    });
    for (std::int64_t id = 0; id <= kTunes + 1; ++id)
        both.agree([&](const Collection& one) {
            const auto abc = one.abc_of({id});
            return abc ? abc->text + abc->file + std::to_string(abc->line) : "none";
        });
    both.agree([](const Collection& one) {
        std::vector<std::string> all;
        for (const collection::FoundOddity& found : one.oddities())
            all.push_back(found.file + std::to_string(found.oddity.line) + found.title + found.oddity.message +
                          found.oddity.advice + std::to_string(found.tune ? found.tune->value : 0));
        return all;
    });
    both.agree([](const Collection& one) {
        std::vector<std::string> all;
        for (const auto& told : one.diagnostics()) all.push_back(told.file + told.diagnostic.message);
        return all;
    });
    both.agree([](const Collection& one) {
        const collection::Counts counts = one.counts();
        return std::vector{counts.files, counts.tunes, counts.settings, counts.files_gone, counts.settings_gone};
    });
}

TEST_CASE("both: all that people said", "[collection][both]") {
    const Both both;
    both.agree([](const Collection& one) { return one.marks(); });
    both.agree([](const Collection& one) { return one.verdicts(); });
    both.agree([](const Collection& one) { return one.players(); });
    both.agree([](const Collection& one) { return one.player_classes(); });
    CHECK(both.library.player_classes().size() == 2);
    REQUIRE(both.library.players().size() == 2);
    for (const collection::PlayerRecord& record : both.library.players()) {
        both.agree([&](const Collection& one) { return one.history_of(record.player.id); });
        both.agree([&](const Collection& one) { return one.player_named(record.player.name.text); });
    }
    both.agree([](const Collection& one) { return one.player_named("nobody"); });
}
