#include "answers/tunes.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::Part;
using answers::Reason;
using answers::TunesQuestion;

const std::string kShelfOfThree =
    "X:1\nT:Lamp\nR:jig\nM:6/8\nL:1/8\nK:G\n|:G2B dBG|A2c ecA|B2d gdB|A2F D3:|\n\n"
    "X:2\nT:Rope\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAF DFAF|EFAF E4|DFAF DFAF|EAFE D4:|\n\n"
    "X:3\nT:Tower\nR:reel\nM:4/4\nL:1/8\nK:D\n|:DFAB AFDE|FABA F4|DFAB AFDE|FAFE D4:|\n";

// Where `DFAd BAF` is: a fourth higher at the start; with one note wrong; at a part; at a bar; at the start; nowhere.
const std::string kHeardPhrase = "D4 F#4 A4 D5 B4 A4 F#4";
const std::string kHeardTunes =
    "X:1\nT:Anchor\nM:4/4\nL:1/8\nK:G\nGBdg edBA|ACAC A4|ACAC A4|ACAC A4|]\n\n"
    "X:2\nT:Bell\nM:4/4\nL:1/8\nK:D\nDFAd cAFE|EGEG E4|EGEG E4|EGEG E4|]\n\n"
    "X:3\nT:Creek\nM:4/4\nL:1/8\nK:D\n|:EGEG E4|EGEG E4:||:DFAd BAFE|EGEG E4:|\n\n"
    "X:4\nT:Dune\nM:4/4\nL:1/8\nK:D\nEGEG E4|EGEG E4|DFAd BAFE|EGEG E4|]\n\n"
    "X:5\nT:Ember\nM:4/4\nL:1/8\nK:D\nDFAd BAFE|EGEG E4|EGEG E4|EGEG E4|]\n\n"
    "X:6\nT:Fog\nM:4/4\nL:1/8\nK:D\nEGEG E4|EGEG E4|EGEG E4|GEGE G4|]\n";

// Tunes that begin alike and are told apart by five bars, as in a number of as many digits.
std::string tunes_beginning_alike(int many) {
    std::string abc;
    for (int number = 0; number < many; ++number) {
        abc += "X:" + std::to_string(number + 1) + "\nT:Alike " + std::to_string(100 + number) +
               "\nM:4/4\nL:1/8\nK:D\nDFAd BAFE|";
        for (int digit = 1; digit < 32; digit *= 2) abc += (number & digit) != 0 ? "G2E2 G4|" : "E2G2 E4|";
        abc += "]\n\n";
    }
    return abc;
}

std::vector<std::string> titles_of(const answers::TunesAnswer& answer) {
    std::vector<std::string> titles;
    for (const tune::TuneRecord& record : answer.rows) titles.push_back(tune::title_of(record));
    return titles;
}

std::int64_t failing(const std::vector<answers::Sieve>& why, std::string_view filter) {
    for (const answers::Sieve& sieve : why)
        if (sieve.filter == filter) return sieve.fails;
    return -1;  // not given
}

TunesQuestion by_ear() {
    TunesQuestion question;
    question.heard = kHeardPhrase;
    return question;
}

answers::Refusal no_tunes(const collection::Memory& memory, const TunesQuestion& question) {
    return support::refusal_of([&] { answers::answer(memory, question); });
}

}  // namespace

TEST_CASE("tunes: without a filter all of them, and no notes were asked about", "[answers][tunes]") {
    const answers::TunesAnswer answer = answers::answer(support::collected(kShelfOfThree), TunesQuestion());
    CHECK(titles_of(answer) == std::vector<std::string>{"Lamp", "Rope", "Tower"});
    CHECK(answer.matched == 3);
    CHECK(answer.left_out == 0);
    CHECK(answer.why.empty());
    CHECK_FALSE(answer.have.has_value());
    CHECK_FALSE(answer.by_setting);
    CHECK(answer.heard.empty());
}

TEST_CASE("tunes: a screenful where nothing narrows, and all where something does", "[answers][tunes]") {
    const collection::Memory memory = support::collected(kShelfOfThree);
    TunesQuestion question;
    question.screenful = 2;
    CHECK(titles_of(answers::answer(memory, question)) == std::vector<std::string>{"Lamp", "Rope"});
    CHECK(answers::answer(memory, question).is_screenful);
    CHECK(answers::answer(memory, question).matched == 3);
    question.screenful = 3;
    CHECK_FALSE(answers::answer(memory, question).is_screenful);
    question.screenful = 1;
    question.filter.columns.rhythm = "reel";
    CHECK(titles_of(answers::answer(memory, question)) == std::vector<std::string>{"Rope", "Tower"});
    question.filter.columns.rhythm.reset();
    question.filter.columns.limit = 3;
    CHECK(answers::answer(memory, question).rows.size() == 3);
    CHECK_FALSE(answers::answer(memory, question).is_screenful);
}

TEST_CASE("tunes: each filter tells how many do not pass it, whatever the others say", "[answers][tunes]") {
    TunesQuestion question;
    question.filter.columns.rhythm = "reel";
    question.filter.fits = {"D4 E4 F#4 A4"};
    const answers::TunesAnswer answer = answers::answer(support::collected(kShelfOfThree), question);
    CHECK(titles_of(answer) == std::vector<std::string>{"Rope"});
    CHECK(answer.matched == 1);
    CHECK(answer.left_out == 2);
    CHECK(answer.why.size() == 2);
    CHECK(failing(answer.why, "fits") == 2);  // Lamp and Tower
    CHECK(failing(answer.why, "rhythm") == 1);
    CHECK(answer.have == music::read_notes("D4 E4 F#4 A4"));
}

TEST_CASE("tunes: notes that may be lacking are those asked about all the same", "[answers][tunes]") {
    TunesQuestion question;
    question.filter.fits = {"D4 E4 F#4 A4"};
    question.filter.missing = answers::Lacking{1};
    const answers::TunesAnswer answer = answers::answer(support::collected(kShelfOfThree), question);
    CHECK(titles_of(answer) == std::vector<std::string>{"Rope", "Tower"});
    CHECK(answer.have == music::read_notes("D4 E4 F#4 A4"));
    CHECK(failing(answer.why, "fits") == 1);
}

TEST_CASE("tunes: a limit cuts the rows and not the count", "[answers][tunes]") {
    TunesQuestion question;
    question.filter.columns.limit = 1;
    const answers::TunesAnswer answer = answers::answer(support::collected(kShelfOfThree), question);
    CHECK(titles_of(answer) == std::vector<std::string>{"Lamp"});
    CHECK(answer.matched == 3);
}

TEST_CASE("tunes: rows stand in the order asked for", "[answers][tunes]") {
    TunesQuestion question;
    question.filter.columns.sort = collection::Sort::notes;  // seven, four and five of them
    CHECK(titles_of(answers::answer(support::collected(kShelfOfThree), question)) ==
          std::vector<std::string>{"Rope", "Tower", "Lamp"});
}

TEST_CASE("tunes: a tune is one row, and one for each setting where that is asked", "[answers][tunes]") {
    people::Kept kept;
    kept.verdicts[{2, 3}] = {true, 1};
    const collection::Memory memory = support::collected(kShelfOfThree, kept);
    TunesQuestion question;
    CHECK(answers::answer(memory, question).matched == 2);
    question.filter.columns.settings = true;
    const answers::TunesAnswer answer = answers::answer(memory, question);
    CHECK(answer.by_setting);
    CHECK(titles_of(answer) == std::vector<std::string>{"Lamp", "Rope", "Tower"});
    CHECK(answer.matched == 3);
}

TEST_CASE("tunes: one whose notes leave the key open is told of when its other key is asked for", "[answers][tunes]") {
    const collection::Memory memory = support::collected("X:1\nT:Open\nM:4/4\nL:1/8\nK:D\nDEAB A4|BAED E4|\n");
    const tune::TuneRecord record = *memory.tune_by_id({1});
    REQUIRE_FALSE(record.key_decided);
    const auto other =
        std::find_if(record.key_candidates.begin(), record.key_candidates.end(),
                     [&](const music::Key& key) { return key.tonic.pitch_class() != record.key->tonic.pitch_class(); });
    REQUIRE(other != record.key_candidates.end());
    TunesQuestion question;
    question.filter.columns.tonic = other->tonic.pitch_class();
    const answers::TunesAnswer answer = answers::answer(memory, question);
    CHECK(answer.rows.empty());
    CHECK(answer.open_keys == 1);
    question.filter.columns.tonic = 1;  // C sharp, of which it has no note
    CHECK(answers::answer(memory, question).open_keys == 0);
}

TEST_CASE("tunes: a key that a person said is the one that is found", "[answers][tunes]") {
    people::Kept kept;
    kept.keys[3] = {*music::parse_key("F# phrygian"), 1};
    const collection::Memory memory = support::collected(kShelfOfThree, kept);
    TunesQuestion question;
    question.filter.columns.tonic = 6;
    CHECK(titles_of(answers::answer(memory, question)) == std::vector<std::string>{"Tower"});
    question.filter.columns.tonic = 2;
    CHECK(titles_of(answers::answer(memory, question)) == std::vector<std::string>{"Rope"});
}

TEST_CASE("tunes: what was heard comes in the order of how well it fits, with the place", "[answers][tunes]") {
    const answers::TunesAnswer answer = answers::answer(support::collected(kHeardTunes), by_ear());
    CHECK(titles_of(answer) == std::vector<std::string>{"Ember", "Creek", "Dune", "Anchor", "Bell"});
    CHECK(answer.matched == 5);
    CHECK(answer.left_out == 1);
    CHECK(failing(answer.why, "goes") == 1);
    REQUIRE(answer.heard.size() == 5);
    const auto place = [&](std::int64_t setting) { return answer.heard.at({setting}); };
    CHECK(place(5).errors == 0);
    CHECK(place(5).begins == "tune");
    CHECK(place(5).bar == 1);
    CHECK(place(5).semitones == 0);
    CHECK(place(3).begins == "part");
    CHECK(place(3).bar == 3);
    CHECK(place(4).begins == "within");
    CHECK(place(4).bar == 3);
    CHECK(place(1).semitones == 5);
    CHECK(place(1).errors == 0);
    CHECK(place(2).errors == 1);
}

TEST_CASE("tunes: an order that was asked for goes before how well a tune fits what was heard", "[answers][tunes]") {
    TunesQuestion question = by_ear();
    question.is_sorted = true;
    CHECK(titles_of(answers::answer(support::collected(kHeardTunes), question)) ==
          std::vector<std::string>{"Anchor", "Bell", "Creek", "Dune", "Ember"});
}

TEST_CASE("tunes: what was heard at the start is looked for nowhere else", "[answers][tunes]") {
    TunesQuestion question = by_ear();
    question.at_start = true;
    CHECK(titles_of(answers::answer(support::collected(kHeardTunes), question)) ==
          std::vector<std::string>{"Ember", "Anchor", "Bell"});
}

TEST_CASE("tunes: a filter holds for what was heard too", "[answers][tunes]") {
    TunesQuestion question = by_ear();
    question.filter.columns.title = "fog";
    CHECK(answers::answer(support::collected(kHeardTunes), question).rows.empty());
    question.filter.columns.title = "dune";
    const answers::TunesAnswer answer = answers::answer(support::collected(kHeardTunes), question);
    CHECK(titles_of(answer) == std::vector<std::string>{"Dune"});
    CHECK(failing(answer.why, "title") == 5);
    CHECK(failing(answer.why, "goes") == 1);
}

TEST_CASE("tunes: by ear a few rows are told, more or fewer where that is asked", "[answers][tunes]") {
    const collection::Memory memory = support::collected(tunes_beginning_alike(25));
    TunesQuestion question = by_ear();
    const answers::TunesAnswer answer = answers::answer(memory, question);
    CHECK(answer.rows.size() == static_cast<std::size_t>(answers::kRowsByEar));
    CHECK(answer.matched == 25);
    question.filter.columns.limit = 24;
    CHECK(answers::answer(memory, question).rows.size() == 24);
    question.filter.columns.limit = 3;
    CHECK(answers::answer(memory, question).rows.size() == 3);
    question.heard.reset();
    question.filter.columns.limit.reset();
    CHECK(answers::answer(memory, question).rows.size() == 25);
}

TEST_CASE("tunes: notes that the instrument has not are told", "[answers][tunes]") {
    TunesQuestion question;
    question.filter.instrument = {std::shared_ptr<void>(), instruments::find("whistle-d")};
    question.filter.fits = {"C4 D4 E4 F#4 A4"};
    const answers::TunesAnswer answer = answers::answer(support::collected(kShelfOfThree), question);
    REQUIRE(answer.left_out_notes.size() == 1);
    CHECK(answer.left_out_notes[0].part == Part::fits);
    CHECK(answer.left_out_notes[0].notes == music::read_notes("C4"));
    CHECK(answer.have == music::read_notes("D4 E4 F#4 A4"));
}

TEST_CASE("tunes: what is no question", "[answers][tunes]") {
    const collection::Memory memory = support::collected(kShelfOfThree);
    TunesQuestion question;
    question.heard = "D4 E4";  // two notes are in every tune
    const answers::Refusal too_short = no_tunes(memory, question);
    CHECK(too_short.part == Part::heard);
    CHECK(too_short.reason == Reason::in_words);
    CHECK_FALSE(too_short.what.empty());
    question = {};
    question.filter.missing = answers::Lacking{1};
    CHECK(no_tunes(memory, question).part == Part::missing);
    CHECK(no_tunes(memory, question).reason == Reason::lacking_which);
    question.filter.fits = {"Q9"};
    CHECK(no_tunes(memory, question).part == Part::fits);
    CHECK(no_tunes(memory, question).reason == Reason::in_words);
    question = {};
    question.filter.grade = 2;
    CHECK(no_tunes(memory, question).reason == Reason::grade_of_which);
    question = {};
    question.filter.players = {"Ina"};
    CHECK(no_tunes(memory, question).reason == Reason::no_players);
}
