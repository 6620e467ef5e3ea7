#include "answers/tunebook.h"

#include <catch2/catch.hpp>

#include "abc/moved.h"
#include "abc/read.h"
#include "abc/sounds_moved.h"
#include "analysis/analyse.h"
#include "answers/refusal.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::BookRemark;
using answers::Part;
using answers::Reason;
using answers::TunebookQuestion;

const std::string kBookTunes =
    "X:4\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:G\n|:\"G\"G2B dBG|A2^c ecA|{c}B2d (3gdB|A2F D3:|\n\n"
    "X:9\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAF DFAF|EFAF E4|[DFA]2AF D>FAF|EAFE D4:|\n\n"
    "X:5\nT:Net\nR:reel\nM:4/4\nL:1/8\nK:C\n|:CDEG CDEG|FDED C4|C2EG CDEF|GEDE C4:|\n";
const std::string kWideTune = "\nX:6\nT:Wide\nM:4/4\nL:1/8\nK:D\nA,4 d'4|A,4 d4|]\n";

std::vector<tune::Setting> settings_in(const std::string& abc) {
    base::Diagnostics unheard;
    return abc::read_settings(base::SourceFile("book.abc", abc), unheard);
}

answers::TunebookAnswer book_of(const std::string& abc, const TunebookQuestion& question, people::Kept kept = {}) {
    return answers::answer(support::collected(abc, std::move(kept)), question);
}

std::vector<std::string> titles_of_book(const std::string& abc) {
    std::vector<std::string> titles;
    for (const tune::Setting& setting : settings_in(abc)) titles.push_back(setting.titles.at(0));
    return titles;
}

answers::Refusal no_book(const TunebookQuestion& question) {
    return support::refusal_of([&] { book_of(kBookTunes, question); });
}

TunebookQuestion best_on_whistle() {
    TunebookQuestion question;
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    question.moves_best = true;
    return question;
}

int moved_between(const tune::Setting& before, const tune::Setting& after) {
    return after.melody.heads.at(0).midi - before.melody.heads.at(0).midi;
}

// Whose ABC of the second setting was not kept.
class WithoutTheSecond : public collection::Memory {
public:
    using collection::Memory::Memory;
    explicit WithoutTheSecond(const collection::Memory& memory) : collection::Memory(memory) {}

    std::optional<collection::AbcText> abc_of(tune::SettingId setting) const override {
        return setting.value == 2 ? std::nullopt : collection::Memory::abc_of(setting);
    }
};

}  // namespace

TEST_CASE("tunebook: tunes stand in the order they were named, numbered from 1, and read back the same",
          "[answers][tunebook]") {
    TunebookQuestion question;
    question.which = {"rope", "1"};
    const answers::TunebookAnswer answer = book_of(kBookTunes, question);
    CHECK(answer.is_whole());
    CHECK(answer.tunes == 2);
    CHECK(answer.notes.empty());
    const std::vector<tune::Setting> before = settings_in(kBookTunes);
    std::vector<tune::Setting> after = settings_in(answer.abc);
    REQUIRE(after.size() == 2);
    CHECK(after[0].titles.front() == "Rope");
    CHECK(after[0].number == "1");
    CHECK(after[1].number == "2");
    after[0].number = "9";
    after[1].number = "4";
    CHECK(abc::sounds_moved(before[1], after[0], 0));
    CHECK(abc::sounds_moved(before[0], after[1], 0));
    CHECK(answer.abc.find("% from tunes.abc:1\n") != std::string::npos);
}

TEST_CASE("tunebook: without names all that pass the filter, in its order and to its limit", "[answers][tunebook]") {
    TunebookQuestion question;
    CHECK(titles_of_book(book_of(kBookTunes, question).abc) == std::vector<std::string>{"Lamp", "Net", "Rope"});
    question.filter.columns.sort = collection::Sort::file;
    CHECK(titles_of_book(book_of(kBookTunes, question).abc) == std::vector<std::string>{"Lamp", "Rope", "Net"});
    question.filter.columns.limit = 2;
    CHECK(titles_of_book(book_of(kBookTunes, question).abc) == std::vector<std::string>{"Lamp", "Rope"});
    question.filter.columns.rhythm = "reel";
    CHECK(titles_of_book(book_of(kBookTunes, question).abc) == std::vector<std::string>{"Rope", "Net"});
}

TEST_CASE("tunebook: moved tunes read back the same so many semitones away", "[answers][tunebook]") {
    const std::vector<tune::Setting> before = settings_in(kBookTunes);
    for (const int semitones : {-abc::kMostSemitones, -7, -1, 1, 2, 12, abc::kMostSemitones}) {
        CAPTURE(semitones);
        TunebookQuestion question;
        question.filter.columns.sort = collection::Sort::file;
        question.semitones = semitones;
        const answers::TunebookAnswer answer = book_of(kBookTunes, question);
        CHECK(answer.is_whole());
        std::vector<tune::Setting> after = settings_in(answer.abc);
        REQUIRE(after.size() == 3);
        for (std::size_t at = 0; at < after.size(); ++at) {
            after[at].number = before[at].number;
            CHECK(abc::sounds_moved(before[at], after[at], semitones));
            CHECK(moved_between(before[at], after[at]) == semitones);
        }
    }
}

TEST_CASE("tunebook: a tune says where it is from and how far it was moved", "[answers][tunebook]") {
    TunebookQuestion question;
    question.which = {"Rope"};
    question.semitones = -1;
    CHECK(book_of(kBookTunes, question).abc.find("% from tunes.abc:9, moved down 1 semitone\n") != std::string::npos);
    question.semitones = 5;
    CHECK(book_of(kBookTunes, question).abc.find("% from tunes.abc:9, moved up 5 semitones\n") != std::string::npos);
}

TEST_CASE("tunebook: words that name no tune are told, and the others stand in the book", "[answers][tunebook]") {
    TunebookQuestion question;
    question.which = {"Nowhere Fair", "Net"};
    const answers::TunebookAnswer answer = book_of(kBookTunes, question);
    CHECK(answer.tunes == 1);
    CHECK(answer.asked_for == 2);
    CHECK_FALSE(answer.is_whole());
    REQUIRE(answer.not_found.size() == 1);
    CHECK(answer.not_found[0].part == Part::tune);
    CHECK(answer.not_found[0].reason == Reason::unknown_tune);
    CHECK(answer.not_found[0].what == "Nowhere Fair");
    CHECK(settings_in(answer.abc).at(0).number == "1");
}

TEST_CASE("tunebook: each tune goes to where it lies best on the instrument", "[answers][tunebook]") {
    const answers::TunebookAnswer answer = book_of(kBookTunes, best_on_whistle());
    CHECK(answer.is_whole());
    const std::vector<tune::Setting> before = settings_in(kBookTunes);  // Lamp, Rope, Net
    const std::vector<tune::Setting> after = settings_in(answer.abc);   // by title
    REQUIRE(after.size() == 3);
    CHECK(moved_between(before[0], after[0]) == 0);  // in G it lies well
    CHECK(moved_between(before[2], after[1]) == 2);  // from C to D
    CHECK(moved_between(before[1], after[2]) == 0);
    for (const tune::Setting& setting : after)
        CHECK(analysis::analyse(setting).needed.is_within(instruments::find("whistle-d")->note_set()));
    CHECK(answer.abc.find("% from tunes.abc:17, moved up 2 semitones, hardest note of grade 2\n") != std::string::npos);
}

TEST_CASE("tunebook: to go where it lies best a tune need not fit, else the instrument is a filter",
          "[answers][tunebook]") {
    TunebookQuestion question = best_on_whistle();
    question.moves_best = false;
    CHECK(titles_of_book(book_of(kBookTunes, question).abc) == std::vector<std::string>{"Lamp", "Rope"});
    question.moves_best = true;
    question.semitones = 7;  // then counts for nothing
    CHECK(titles_of_book(book_of(kBookTunes, question).abc) == std::vector<std::string>{"Lamp", "Net", "Rope"});
    CHECK(book_of(kBookTunes, question).abc == book_of(kBookTunes, best_on_whistle()).abc);
}

TEST_CASE("tunebook: the key that a person said is the one a tune is moved from", "[answers][tunebook]") {
    // It lies as well in several places; which of their keys is customary decides.
    const std::string open = "X:1\nT:Open\nM:4/4\nL:1/8\nK:C\n|:CDGA CDGA|GDCD C4:|\n";
    const auto move_with = [&](const char* key) {
        people::Kept kept;
        if (key != nullptr) kept.keys[1] = {*music::parse_key(key), 1};
        const answers::TunebookAnswer answer = book_of(open, best_on_whistle(), kept);
        return moved_between(settings_in(open).at(0), settings_in(answer.abc).at(0));
    };
    CHECK(move_with(nullptr) == move_with("C major"));  // as the notes say
    CHECK(move_with("C major") == 2);                   // to D
    CHECK(move_with("G major") == 7);
}

TEST_CASE("tunebook: a tune that no move makes fit is left out and told", "[answers][tunebook]") {
    const answers::TunebookAnswer answer = book_of(kBookTunes + kWideTune, best_on_whistle());
    CHECK(answer.tunes == 3);
    CHECK(answer.asked_for == 4);
    CHECK_FALSE(answer.is_whole());
    REQUIRE(answer.notes.size() == 1);
    CHECK(answer.notes[0].what == BookRemark::never_fits);
    CHECK(answer.notes[0].record.titles.front() == "Wide");
}

TEST_CASE("tunebook: a chord name that cannot be moved is left out of the tune and told", "[answers][tunebook]") {
    const std::string chord = "X:1\nT:Chorded\nM:4/4\nL:1/8\nK:G\n\"H7\"GABc d4|\"D\"dcBA G4|]\n";
    TunebookQuestion question;
    question.semitones = 2;
    const answers::TunebookAnswer answer = book_of(chord, question);
    CHECK(answer.is_whole());
    REQUIRE(answer.notes.size() == 1);
    CHECK(answer.notes[0].what == BookRemark::chord_lost);
    CHECK(answer.notes[0].why.find("H7") != std::string::npos);
    CHECK(answer.notes[0].file == "tunes.abc");
    CHECK(answer.abc.find("H7") == std::string::npos);
    CHECK(answer.abc.find("\"E\"") != std::string::npos);
    question.semitones = 0;
    CHECK(book_of(chord, question).notes.empty());
    CHECK(book_of(chord, question).abc.find("H7") != std::string::npos);
}

TEST_CASE("tunebook: a tune that cannot be moved is left out with what hinders, and the numbers have no gap",
          "[answers][tunebook]") {
    const std::string quarter = "X:1\nT:Bent\nM:4/4\nL:1/8\nK:G\nGA^/cB G4|]\n\n" + kBookTunes;
    TunebookQuestion question;
    question.filter.columns.sort = collection::Sort::file;
    question.semitones = 2;
    const answers::TunebookAnswer answer = book_of(quarter, question);
    CHECK(answer.tunes == 3);
    CHECK(answer.asked_for == 4);
    REQUIRE(answer.notes.size() == 1);
    CHECK(answer.notes[0].what == BookRemark::sounds_wrong);
    CHECK(answer.notes[0].record.titles.front() == "Bent");
    CHECK_FALSE(answer.notes[0].why.empty());
    CHECK(settings_in(answer.abc).at(0).number == "1");
    CHECK(titles_of_book(answer.abc) == std::vector<std::string>{"Lamp", "Rope", "Net"});
    question.which = {"Bent"};
    CHECK(book_of(quarter, question).abc.empty());
    CHECK_FALSE(book_of(quarter, question).is_whole());
}

TEST_CASE("tunebook: a tune whose ABC was not kept is left out and told", "[answers][tunebook]") {
    const WithoutTheSecond memory(support::collected(kBookTunes));
    const answers::TunebookAnswer answer = answers::answer(memory, TunebookQuestion());
    CHECK(answer.tunes == 2);
    CHECK(answer.asked_for == 3);
    REQUIRE(answer.notes.size() == 1);
    CHECK(answer.notes[0].what == BookRemark::not_kept);
    CHECK(answer.notes[0].record.titles.front() == "Rope");
}

TEST_CASE("tunebook: what the head of a file says holds for each of its tunes", "[answers][tunebook]") {
    const std::string headed =
        "M:4/4\nL:1/4\nR:reel\n\nX:1\nT:Long\nK:D\nDFAF|EFAF|]\n\nX:2\nT:Short\nL:1/8\nK:D\nDFAF D4|]\n";
    const std::vector<tune::Setting> before = settings_in(headed);
    const std::vector<tune::Setting> after = settings_in(book_of(headed, {}).abc);
    REQUIRE(after.size() == 2);
    CHECK(after[0].unit == music::Duration(1, 4));
    CHECK(after[0].rhythm == "reel");
    CHECK(after[1].unit == music::Duration(1, 8));
    CHECK(abc::sounds_moved(before[0], after[0], 0));
}

TEST_CASE("tunebook: an empty book is not whole", "[answers][tunebook]") {
    TunebookQuestion question;
    question.filter.columns.rhythm = "waltz";
    const answers::TunebookAnswer answer = book_of(kBookTunes, question);
    CHECK(answer.abc.empty());
    CHECK(answer.asked_for == 0);
    CHECK_FALSE(answer.is_whole());
}

TEST_CASE("tunebook: notes that the instrument has not are told", "[answers][tunebook]") {
    TunebookQuestion question = best_on_whistle();
    question.moves_best = false;
    question.filter.fits = {"C4 D4 E4 F#4 A4"};
    const answers::TunebookAnswer answer = book_of(kBookTunes, question);
    CHECK(titles_of_book(answer.abc) == std::vector<std::string>{"Rope"});
    REQUIRE(answer.left_out_notes.size() == 1);
    CHECK(answer.left_out_notes[0].notes == music::read_notes("C4"));
}

TEST_CASE("tunebook: what is no question", "[answers][tunebook]") {
    TunebookQuestion question;
    question.moves_best = true;
    CHECK(no_book(question).part == Part::move);
    CHECK(no_book(question).reason == Reason::best_for_which);
    question = {};
    question.which = {"e"};  // Rope and Net
    CHECK(no_book(question).part == Part::tune);
    CHECK(no_book(question).reason == Reason::several_tunes);
    CHECK(no_book(question).tunes.size() == 2);
    question = {};
    question.filter.missing = answers::Lacking{1};
    CHECK(no_book(question).reason == Reason::lacking_which);
}
