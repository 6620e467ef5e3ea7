#include "answers/notes.h"

#include <catch2/catch.hpp>

#include "answers/refusal.h"
#include "instruments/known.h"
#include "support/collected.h"
#include "support/refused.h"

namespace {

using answers::NotesQuestion;
using answers::Part;
using answers::Reason;
using planner::Had;

// From D4 E4: nothing more, with F#4, with F#4 and G4, with A4, and one in which nothing sounds.
const std::string kWorthTunes =
    "X:1\nT:One\nR:jig\nM:6/8\nL:1/8\nK:D\nDED EDE|]\n\nX:2\nT:Two\nR:jig\nM:6/8\nL:1/8\nK:D\nDEF FED|]\n\n"
    "X:3\nT:Three\nR:reel\nM:4/4\nL:1/8\nK:D\nDEFG GFED|]\n\nX:4\nT:Four\nR:reel\nM:4/4\nL:1/8\nK:D\nDEAE D4|]\n\n"
    "X:5\nT:Silence\nM:4/4\nL:1/8\nK:D\nz8|]\n";

NotesQuestion with_two_notes() {
    NotesQuestion question;
    question.have = "D4 E4";
    return question;
}

answers::NotesAnswer worth(const NotesQuestion& question, people::Kept kept = {}) {
    return answers::answer(support::collected(kWorthTunes, std::move(kept)), question);
}

answers::Refusal no_worth(const NotesQuestion& question, people::Kept kept = {}) {
    return support::refusal_of([&] { worth(question, std::move(kept)); });
}

std::shared_ptr<const instruments::Instrument> whistle_in_hand() {
    return {std::shared_ptr<void>(), instruments::find("whistle-d")};
}

}  // namespace

TEST_CASE("notes: what each note is worth, as counted by hand", "[answers][notes]") {
    const answers::NotesAnswer answer = worth(with_two_notes());
    CHECK(answer.tunes == 4);
    CHECK(answer.open_now == 1);
    CHECK(answer.without_notes == 1);
    CHECK(answer.have == music::read_notes("D4 E4"));
    CHECK(answer.is_have_given);
    CHECK(answer.notes == std::vector<planner::NoteWorth>{{62, Had::yes, 4, 1, 0},   // D4
                                                          {64, Had::yes, 4, 1, 0},   // E4
                                                          {66, Had::no, 2, 0, 1},    // F#4 opens Two
                                                          {67, Had::no, 1, 0, 0},    // G4 alone opens nothing
                                                          {69, Had::no, 1, 0, 1}});  // A4 opens Four
    CHECK(answer.smallest.empty());
    CHECK_FALSE(answer.best_start.has_value());
}

TEST_CASE("notes: without notes of one's own nothing is open", "[answers][notes]") {
    const answers::NotesAnswer answer = worth({});
    CHECK_FALSE(answer.is_have_given);
    CHECK(answer.have.empty());
    CHECK(answer.open_now == 0);
    CHECK(answer.notes.front().had == Had::no);
    CHECK(answer.notes.front().lost == 0);
}

TEST_CASE("notes: the notes of a player, unless others are said", "[answers][notes]") {
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", "whistle-d", music::read_notes("D4 E4 A4")};
    NotesQuestion question;
    question.filter.players = {"Ina"};
    const answers::NotesAnswer of_player = worth(question, kept);
    CHECK(of_player.is_have_given);
    CHECK(of_player.have == music::read_notes("D4 E4 A4"));
    CHECK(of_player.open_now == 2);
    CHECK(of_player.reach.players == 1);
    question.have = "D4 E4";
    CHECK(worth(question, kept).have == music::read_notes("D4 E4"));
}

TEST_CASE("notes: the fewest for a share of the tunes, naturals before sharps, low before high", "[answers][notes]") {
    NotesQuestion question = with_two_notes();
    question.percents = {50, 51, 100};  // 51 of 100 of four tunes are three
    const answers::NotesAnswer answer = worth(question);
    REQUIRE(answer.smallest.size() == 3);
    CHECK(answer.smallest[0].percent == 50);
    CHECK(answer.smallest[0].tunes == 2);
    CHECK(answer.smallest[0].found.cover.notes == music::read_notes("D4 E4 A4"));  // not F#4, as good but for its sharp
    CHECK(answer.smallest[0].found.cover.met == 2);
    CHECK(answer.smallest[0].found.is_proven());
    CHECK(answer.smallest[0].to_add == music::read_notes("A4"));
    CHECK(answer.smallest[1].tunes == 3);
    CHECK(answer.smallest[1].found.cover.notes == music::read_notes("D4 E4 F#4 G4"));  // not A4, as good but higher
    CHECK(answer.smallest[1].to_add == music::read_notes("F#4 G4"));
    CHECK(answer.smallest[2].tunes == 4);
    CHECK(answer.smallest[2].found.cover.notes == music::read_notes("D4 E4 F#4 G4 A4"));
}

TEST_CASE("notes: the so many that open most from nothing, and the next best", "[answers][notes]") {
    NotesQuestion question = with_two_notes();  // what one has does not count here
    question.best_start = 3;
    const answers::NotesAnswer answer = worth(question);
    REQUIRE(answer.best_start.has_value());
    CHECK(answer.best_start->count == 3);
    REQUIRE(answer.best_start->found.covers.size() == 2);
    CHECK(answer.best_start->found.covers[0].notes == music::read_notes("D4 E4 A4"));
    CHECK(answer.best_start->found.covers[0].met == 2);
    CHECK(answer.best_start->found.covers[1].notes == music::read_notes("D4 E4 F#4"));
    CHECK(answer.best_start->found.is_proven());
    question.best_start = 5;
    CHECK(worth(question).best_start->found.covers[0].met == 4);
}

TEST_CASE("notes: more notes than the tunes need are no question, and none are asked of no tune", "[answers][notes]") {
    NotesQuestion question;
    question.best_start = 6;
    const answers::Refusal refusal = no_worth(question);
    CHECK(refusal.part == Part::best_start);
    CHECK(refusal.reason == Reason::fewer_notes);
    CHECK(refusal.what == "6");
    CHECK(refusal.others == std::vector<std::string>{"5"});
    question.by_name = true;
    CHECK(no_worth(question).reason == Reason::fewer_names);
    question.filter.columns.rhythm = "waltz";
    const answers::NotesAnswer nothing = worth(question);
    CHECK(nothing.tunes == 0);
    CHECK_FALSE(nothing.best_start.has_value());
}

TEST_CASE("notes: a note that one has and no tune needs is no note that the tunes need", "[answers][notes]") {
    NotesQuestion question;
    question.have = "D4 E4 C6";
    question.best_start = 6;
    CHECK(no_worth(question).others == std::vector<std::string>{"5"});
    question.best_start.reset();
    CHECK(worth(question).notes.back() == planner::NoteWorth{84, Had::yes, 0, 0, 0});
}

TEST_CASE("notes: by name all octaves of a note are one, had in part where one lacks some", "[answers][notes]") {
    const collection::Memory memory =
        support::collected("X:1\nT:High\nM:4/4\nL:1/8\nK:C\nDEdE d4|]\n\nX:2\nT:Low\nM:4/4\nL:1/8\nK:C\nDEDE D4|]\n");
    NotesQuestion question = with_two_notes();
    CHECK(answers::answer(memory, question).notes.size() == 3);
    question.by_name = true;
    question.best_start = 2;
    const answers::NotesAnswer answer = answers::answer(memory, question);
    CHECK(answer.by_name);
    REQUIRE(answer.notes.size() == 2);
    CHECK(answer.notes[0].lead % 12 == 2);
    CHECK(answer.notes[0].had == Had::in_part);
    CHECK(answer.notes[0].uses == 2);
    CHECK(answer.notes[0].opens == 1);
    CHECK(answer.notes[1].had == Had::yes);
    CHECK(answer.best_start->found.covers[0].met == 2);
    question.best_start = 3;
    CHECK_THROWS_AS(answers::answer(memory, question), answers::Refused);
}

TEST_CASE("notes: tunes beyond the instrument are left out and counted, those beyond given notes are left out",
          "[answers][notes]") {
    const collection::Memory memory =
        support::collected(kWorthTunes + "\nX:6\nT:Deep\nM:4/4\nL:1/8\nK:C\nDEA,E D4|]\n");
    NotesQuestion question = with_two_notes();
    CHECK(answers::answer(memory, question).tunes == 5);
    question.filter.instrument = whistle_in_hand();
    const answers::NotesAnswer on_whistle = answers::answer(memory, question);
    CHECK(on_whistle.tunes == 4);
    CHECK(on_whistle.out_of_reach == 1);
    CHECK(on_whistle.reach.instrument);
    question.filter.instrument.reset();
    question.filter.fits = {"D4 E4 F#4 G4"};
    const answers::NotesAnswer among = answers::answer(memory, question);
    CHECK(among.tunes == 3);
    CHECK(among.out_of_reach == 0);
    CHECK_FALSE(among.reach.is_given());
}

TEST_CASE("notes: a tune out of reach is counted so only where nothing else leaves it out", "[answers][notes]") {
    const collection::Memory memory =
        support::collected(kWorthTunes + "\nX:6\nT:Deep\nR:waltz\nM:3/4\nL:1/8\nK:C\nDEA,E D2|]\n");
    NotesQuestion question = with_two_notes();
    question.filter.instrument = whistle_in_hand();
    question.filter.columns.rhythm = "jig";
    CHECK(answers::answer(memory, question).out_of_reach == 0);
    question.filter.columns.rhythm = "waltz";
    CHECK(answers::answer(memory, question).out_of_reach == 1);
}

TEST_CASE("notes: notes that the instrument has not are told", "[answers][notes]") {
    NotesQuestion question;
    question.filter.instrument = whistle_in_hand();
    question.have = "C4 D4 E4";
    const answers::NotesAnswer answer = worth(question);
    CHECK(answer.have == music::read_notes("D4 E4"));
    REQUIRE(answer.left_out_notes.size() == 1);
    CHECK(answer.left_out_notes[0].part == Part::have);
    CHECK(answer.left_out_notes[0].notes == music::read_notes("C4"));
}

TEST_CASE("notes: of a tune the setting nearest to one's notes is counted", "[answers][notes]") {
    people::Kept kept;
    kept.verdicts[{3, 4}] = {true, 1};  // Three lacks two notes, Four one
    const answers::NotesAnswer answer = worth(with_two_notes(), kept);
    CHECK(answer.tunes == 3);
    CHECK(answer.open_now == 1);
    REQUIRE(answer.notes.size() == 4);  // no G4
    CHECK(answer.notes.back() == planner::NoteWorth{69, Had::no, 1, 0, 1});
}

TEST_CASE("notes: what is no question", "[answers][notes]") {
    NotesQuestion question;
    question.have = "Q9";
    CHECK(no_worth(question).part == Part::have);
    CHECK(no_worth(question).reason == Reason::in_words);
    question.filter.instrument = whistle_in_hand();
    question.have = "C4";
    CHECK(no_worth(question).part == Part::have);
    CHECK(no_worth(question).reason == Reason::none_on_instrument);
    question = {};
    people::Kept kept;
    kept.players[1] = {"Ina", "ina", std::nullopt, music::read_notes("D4")};
    kept.players[2] = {"Uli", "uli", std::nullopt, music::read_notes("E4")};
    question.filter.players = {"Ina", "Uli"};
    CHECK(no_worth(question, kept).part == Part::players);
    CHECK(no_worth(question, kept).reason == Reason::no_note_in_common);
    question = {};
    question.filter.missing = answers::Lacking{1};
    CHECK(no_worth(question).reason == Reason::lacking_which);
}
