#include "report/words/words.h"

#include <catch2/catch.hpp>

#include "music/note_expression.h"

TEST_CASE("words: notes are listed upwards, spelled beside the signature", "[report][words]") {
    const music::NoteSet notes = music::read_notes("A3 Bb3 C#5");
    CHECK(report::note_list(notes) == "A3 Bb3 C#5");
    CHECK(report::note_list(notes, 5) == "A3 A#3 C#5");
    CHECK(report::note_list(notes, -4) == "A3 Bb3 Db5");
    CHECK(report::note_list({}) == "-");
    CHECK(report::note_names(notes) == std::vector<std::string>{"A3", "Bb3", "C#5"});
}

TEST_CASE("words: a range runs from the lowest note to the highest", "[report][words]") {
    CHECK(report::range_of(music::read_notes("D4 F#4 B5")) == "D4..B5");
    CHECK(report::range_of(music::read_notes("D4")) == "D4..D4");
    CHECK(report::range_of({}) == "-");
}

TEST_CASE("words: what is not known is a dash", "[report][words]") {
    CHECK(report::note_or_dash(std::nullopt) == "-");
    CHECK(report::note_or_dash(57) == "A3");
    CHECK(tune::title_of(tune::TuneRecord{}) == "(no title)");
    CHECK(report::key_in_words(tune::TuneRecord{}) == "-");
}

TEST_CASE("words: an undecided key names its candidates", "[report][words]") {
    tune::TuneRecord record;
    const auto a = *music::parse_note_name("A");
    record.key_candidates = {
        {a, music::Mode::dorian}, {a, music::Mode::minor}, {*music::parse_note_name("G"), music::Mode::major}};
    record.key = record.key_candidates[0];
    CHECK(report::key_in_words(record) == "A dorian or minor; or G major");
    record.key_decided = true;
    CHECK(report::key_in_words(record) == "A dorian");
}

TEST_CASE("words: one is singular, all else plural", "[report][words]") {
    CHECK(report::counted(0, "tune", "tunes") == "0 tunes");
    CHECK(report::counted(1, "tune", "tunes") == "1 tune");
    CHECK(report::counted(2, "tune", "tunes") == "2 tunes");
}

TEST_CASE("words: a rhythm says what it rests on and what else it may be", "[report][words]") {
    using tune::Basis;
    const auto words = [](const char* rhythm, Basis basis, std::vector<std::string> possible) {
        tune::TuneRecord record;
        record.meter = "2/2";
        record.rhythm = {rhythm, basis};
        record.rhythm_possible = std::move(possible);
        return report::rhythm_in_words(record);
    };
    CHECK(report::rhythm_in_words({}) == "unknown");
    CHECK(words("reel", Basis::stated, {}) == "reel (stated)");
    CHECK(words("reel", Basis::title, {}) == "reel (by its title)");
    CHECK(words("reel", Basis::computed, {"hornpipe"}) == "reel (computed; hornpipe possible)");
    CHECK(words("reel", Basis::computed, {"hornpipe", "polka", "march"}) ==
          "reel (computed; hornpipe, polka or march possible)");
    CHECK(words("jig", Basis::stated, {"reel", "hornpipe"}) ==
          "jig (stated, but 2/2 is no meter for it; reel or hornpipe possible)");
}
