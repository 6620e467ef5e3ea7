#include "report/words/telling_words.h"

#include <catch2/catch.hpp>

#include "music/note_expression.h"

namespace {

std::string told(const syllabus::Telling& telling) { return report::in_words(telling); }

std::string told_why(const syllabus::Hindrance& why) {
    const std::string words = told(syllabus::CannotCome{"Lamp", {}, why, {}});
    const std::string begin = "\"Lamp\" cannot come in this term: ";
    REQUIRE(words.substr(0, begin.size()) == begin);
    return words.substr(begin.size());
}

}  // namespace

TEST_CASE("telling words: what cannot come, by when, and in which lesson it comes instead", "[report][telling]") {
    CHECK(told(syllabus::CannotCome{"Lamp", {base::read_date("2027-02-02"), {}, {}}, syllabus::NoLessonInTime{}, 7}) ==
          "\"Lamp\" cannot come by Tue 2 Feb 2027: no lesson in which something new may come is held in that time. It "
          "comes in lesson 7.");
    CHECK(told(syllabus::CannotCome{"Lamp", {{}, {}, 2}, syllabus::NoPlaceLeft{}, {}}) ==
          "\"Lamp\" cannot come as new tune 2: the other tunes that must come leave no place for it.");
    CHECK(told(syllabus::CameLate{"Lamp", {{}, 3, {}}, 4}) == "\"Lamp\" was to come by lesson 3 and came in lesson 4.");
}

TEST_CASE("telling words: why a tune cannot come", "[report][telling]") {
    const music::NoteSet one = music::read_notes("G4"), two = music::read_notes("G4 A4");
    CHECK(told_why(syllabus::NotOnEveryInstrument{one}) == "it needs G4, which is not on everyone's instrument.");
    CHECK(told_why(syllabus::NoTimeForNotes{one, {0, 1, {}}, 1, false}) ==
          "it needs G4, and no new note can come by lesson 1 (at most one in 1 lesson).");
    CHECK(told_why(syllabus::NoTimeForNotes{two, {1, 2, 3}, 4, true}) ==
          "it needs G4 A4, and with the notes other tunes must have, only one new note can come by lesson 4 (at most "
          "one in 2 lessons, 3 in all; more at once only where no single note opens a tune).");
    CHECK(
        told_why(syllabus::NoTimeForNotes{two, {2, 2, {}}, 4, false}) ==
        "it needs G4 A4, and only 2 new notes can come by lesson 4 (at most one in 2 lessons; more at once only where "
        "no single note opens a tune).");
    CHECK(told_why(syllabus::NoRoom{3, 4, 2, false}) ==
          "3 tunes must have come by lesson 4, with which a new tune can come at the latest, and there is room for 2 "
          "(--tunes-each makes more).");
    CHECK(told_why(syllabus::NoRoom{3, 4, 2, true}).find("(--tunes-each or --lessons makes more)") !=
          std::string::npos);
}

TEST_CASE("telling words: notes that cannot come first, and remarks of one and of many", "[report][telling]") {
    const music::NoteSet one = music::read_notes("G4"), two = music::read_notes("G4 A4");
    CHECK(told(syllabus::NotesCannotCome{one, syllabus::TimeForNotes{1, 2, {}}}) ==
          "G4, which the term was to begin with, cannot come: there is time for 1 (at most one in 2 lessons).");
    CHECK(told(syllabus::NotesCannotCome{two, {}}) ==
          "G4 A4, which the term was to begin with, cannot come: the tunes that must come leave no place for it.");
    CHECK(told(syllabus::HadAlready{two}) == "G4 A4 of --first are there from the start.");
    CHECK(told(syllabus::LearntSince{one}) == "G4 was not there at the start and is by now: everyone has learnt it.");
    CHECK(told(syllabus::LearntSince{two}) ==
          "G4 A4 were not there at the start and are by now: everyone has learnt them.");
    CHECK(told(syllabus::EmptyPlaces{1}) ==
          "1 place for a new tune stays empty: no other tune fits the notes that are there by then.");
    CHECK(told(syllabus::SettledLeftOut{2}) ==
          "2 tunes are left out that the players know already, are learning or will not learn.");
    CHECK(told(syllabus::KnownToSome{"Lamp", 2, {"Ina"}}) ==
          "\"Lamp\" in lesson 2: Ina knows it or is learning it already.");
    CHECK(told(syllabus::KnownToSome{"Lamp", 2, {"Ina", "Uli", "Jo"}}) ==
          "\"Lamp\" in lesson 2: Ina, Uli and Jo know it or are learning it already.");
    CHECK(told(syllabus::InWords{"As it was."}) == "As it was.");
}
