#include "library/said_kinds.h"

#include <catch2/catch.hpp>

#include "base/failure.h"
#include "library/intake.h"
#include "library/library.h"
#include "library/marks.h"
#include "library/verdicts.h"
#include "sample.h"
#include "support/scratch.h"

using collection::Selection;
using library::Library;
using library::Marks;
using tune::Basis;

namespace {

music::Key key_named(const std::string& text) { return music::parse_key(text).value(); }

// A setting whose rhythm and key its file and its notes tell.
collection::StoredSetting told_setting(const std::string& number, const std::string& title, std::uint64_t melody) {
    collection::StoredSetting made = sample::setting(number, title, melody);
    made.facts.rhythm = {"reel", Basis::computed};
    made.facts.rhythm_possible = {"polka"};
    made.facts.key = tune::KeyFinding{{key_named("G"), key_named("Em")}, false, {}};
    return made;
}

// As a tune so many semitones higher: one melody class, another key.
collection::StoredSetting moved_by(collection::StoredSetting setting, int semitones) {
    setting.facts.first_note = *setting.facts.first_note + semitones;
    setting.facts.last_note = *setting.facts.last_note + semitones;
    music::NoteSet needed;
    for (const int note : setting.facts.needed.midi_numbers()) needed.add(note + semitones);
    setting.facts.needed = needed;
    setting.key_stated = music::to_string(music::moved(key_named("G"), semitones));
    return setting;
}

struct SaidShelf {
    support::Scratch scratch;
    std::filesystem::path file = scratch / "l.db";
    collection::StoredFile book =
        sample::file("/t/a.abc", {told_setting("1", "Lamp", 11), told_setting("2", "Rope", 22)});

    SaidShelf() { store(book); }
    void store(const collection::StoredFile& stored) const {
        library::Intake intake = library::Intake::open(file);
        intake.store_file(stored);
        intake.close();
    }
    Library read() const { return Library::open_existing(file); }
    tune::TuneRecord tune(std::int64_t id) const { return read().tune_by_id({id}).value(); }
    template <typename Write>
    void change(Write write) const {
        Marks marks = Marks::change(file);
        write(marks);
        marks.commit();
    }
    std::vector<std::int64_t> that(const Selection& selection) const {
        std::vector<std::int64_t> ids;
        for (const tune::TuneRecord& record : read().select_tunes(selection).rows) ids.push_back(record.id.value);
        return ids;
    }
};

using SaidIds = std::vector<std::int64_t>;

}  // namespace

TEST_CASE("said: a rhythm goes before what was found, and back", "[library][marks]") {
    const SaidShelf shelf;
    shelf.change([](Marks& marks) { marks.set_rhythm({1}, "hornpipe"); });
    CHECK(shelf.tune(1).rhythm == tune::Finding<std::string>{"hornpipe", Basis::said});
    CHECK(shelf.tune(1).rhythm_possible.empty());
    CHECK(shelf.tune(2).rhythm == tune::Finding<std::string>{"reel", Basis::computed});
    shelf.change([](Marks& marks) { marks.set_rhythm({1}, std::nullopt); });
    CHECK(shelf.tune(1).rhythm == tune::Finding<std::string>{"reel", Basis::computed});
    CHECK(shelf.tune(1).rhythm_possible == std::vector<std::string>{"polka"});
}

TEST_CASE("said: a key is the first of all, what was computed stays beside it", "[library][marks]") {
    const SaidShelf shelf;
    const std::vector<music::Key> candidates = shelf.tune(1).key_candidates;
    shelf.change([](Marks& marks) { marks.set_key({1}, key_named("Ador")); });
    CHECK(shelf.tune(1).key == key_named("A dorian"));
    CHECK(shelf.tune(1).key_basis == Basis::said);
    CHECK(shelf.tune(1).key_decided);
    CHECK(shelf.tune(1).key_candidates == candidates);
    shelf.change([](Marks& marks) { marks.set_key({1}, std::nullopt); });
    CHECK(shelf.tune(1).key == key_named("G"));
    CHECK(shelf.tune(1).key_basis == Basis::stated);
    CHECK_FALSE(shelf.tune(1).key_decided);
}

TEST_CASE("said: filters and orders go by it", "[library][marks]") {
    const SaidShelf shelf;
    shelf.change([](Marks& marks) {
        marks.set_rhythm({2}, "hornpipe");
        marks.set_key({2}, key_named("Em"));
    });
    Selection hornpipes;
    hornpipes.rhythm = "hornpipe";
    CHECK(shelf.that(hornpipes) == SaidIds{2});
    Selection reels;
    reels.rhythm = "Reel";
    CHECK(shelf.that(reels) == SaidIds{1});
    Selection minor;
    minor.mode = music::Mode::minor;
    CHECK(shelf.that(minor) == SaidIds{2});
    Selection on_g;
    on_g.tonic = 7;
    CHECK(shelf.that(on_g) == SaidIds{1});
    Selection sorted;
    sorted.sort = collection::Sort::key;
    CHECK(shelf.that(sorted) == SaidIds{2, 1});
    sorted.sort = collection::Sort::rhythm;
    CHECK(shelf.that(sorted) == SaidIds{2, 1});
    CHECK(shelf.read().setting_kinds() ==
          std::vector<collection::SettingKind>{{tune::SettingId{1}, "reel", "G major"},
                                               {tune::SettingId{2}, "hornpipe", "E minor"}});
}

TEST_CASE("said: no import touches it, whatever becomes of the file", "[library][marks]") {
    SaidShelf shelf;
    shelf.change([](Marks& marks) {
        marks.set_rhythm({1}, "hornpipe");
        marks.set_key({1}, key_named("Em"));
    });
    shelf.book.content_hash = "";
    shelf.book.settings[0].abc += "% corrected\n";
    shelf.book.settings[0].facts.rhythm = {"march", Basis::stated};
    shelf.store(shelf.book);
    CHECK(shelf.tune(1).rhythm == tune::Finding<std::string>{"hornpipe", Basis::said});
    CHECK(shelf.tune(1).key == key_named("Em"));
    shelf.book.settings.erase(shelf.book.settings.begin());
    shelf.store(shelf.book);
    CHECK(shelf.tune(1).rhythm == tune::Finding<std::string>{"hornpipe", Basis::said});  // gone, and kept
}

TEST_CASE("said: a key moves along with the settings of a tune, a rhythm holds for all", "[library][marks]") {
    const SaidShelf shelf;
    collection::StoredSetting one = told_setting("1", "Net", 33);
    collection::StoredSetting other = moved_by(told_setting("2", "Net", 44), 2);
    one.facts.melody_class = other.facts.melody_class = 99;
    one.key_stated = other.key_stated = "none";  // only the notes tell how far they are apart
    shelf.store(sample::file("/t/b.abc", {one, other}));
    REQUIRE(shelf.tune(4).id == tune::TuneId{3});
    shelf.change([](Marks& marks) {
        marks.set_key({3}, key_named("Em"));
        marks.set_rhythm({3}, "slide");
    });
    const auto settings = shelf.read().settings_of({3});
    REQUIRE(settings.size() == 2);
    CHECK(settings[0].key == key_named("Em"));
    CHECK(settings[1].key == key_named("F#m"));
    CHECK(settings[1].rhythm->value == "slide");
    shelf.change([](Marks& marks) { marks.set_key({4}, key_named("Bm")); });  // of the other, said last
    CHECK(shelf.read().settings_of({3})[0].key == key_named("Am"));
    shelf.change([](Marks& marks) { marks.set_key({3}, std::nullopt); });
    CHECK(shelf.read().settings_of({3})[1].key_basis == Basis::computed);
}

TEST_CASE("said: where tunes come together the later words hold, and each keeps its own", "[library][marks]") {
    const SaidShelf shelf;
    shelf.store(sample::file("/t/b.abc", {moved_by(told_setting("1", "Twine", 55), 2)}));
    shelf.change([](Marks& marks) {
        marks.set_rhythm({3}, "slide");
        marks.set_rhythm({1}, "hornpipe");
        marks.set_key({1}, key_named("Em"));
    });
    library::say_same(shelf.file, {1}, {3}, true);
    CHECK(shelf.tune(3).rhythm->value == "hornpipe");
    const auto settings = shelf.read().settings_of({1});
    REQUIRE(settings.size() == 2);
    CHECK(settings[1].key == key_named("F#m"));  // by what the files state
    library::say_same(shelf.file, {1}, {3}, false);
    CHECK(shelf.tune(3).rhythm->value == "slide");
    CHECK(shelf.tune(3).key_basis == Basis::computed);
}

TEST_CASE("said: what was said is not asked about any more", "[library][marks]") {
    SaidShelf shelf;
    const auto odd = [](tune::OddityKind kind) {
        return collection::StoredOddity{2, 1, kind, base::Severity::warning, "odd", "look"};
    };
    shelf.book.content_hash = "";
    shelf.book.settings[0].abc += "% again\n";
    shelf.book.settings[0].oddities = {odd(tune::OddityKind::key_label), odd(tune::OddityKind::rhythm_meter),
                                       odd(tune::OddityKind::bar_length)};
    shelf.store(shelf.book);
    CHECK(shelf.read().oddities().size() == 3);
    shelf.change([](Marks& marks) { marks.set_key({1}, key_named("Em")); });
    CHECK(shelf.read().oddities().size() == 2);
    shelf.change([](Marks& marks) { marks.set_rhythm({1}, "reel"); });
    REQUIRE(shelf.read().oddities().size() == 1);
    CHECK(shelf.read().oddities()[0].oddity.kind == tune::OddityKind::bar_length);
}
